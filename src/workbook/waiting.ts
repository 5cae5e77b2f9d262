/**
 * Blanks that wait to be filled in: a step was logged, and nothing was measured, moved or signed below it. They are
 * information, and the cell is not reported as one with errors. Later cells make each of them an error.
 */
import { isWork, severity, type Finding, type Kind, type LogEntry } from '../model/index.ts';

/** Without a value in one of these cells, nothing below it can be computed. */
const NEVER_WAITING: ReadonlySet<Kind> = new Set<Kind>(['machine', 'limits', 'work']);

/** The findings of a log with those of waiting blanks as information. */
export function withWaiting(findings: readonly Finding[], entries: readonly LogEntry[]): readonly Finding[] {
  const blank = new Set(findings.flatMap(({ code, cell }) => (code === 'cell.blank' ? [cell] : [])));
  if (blank.size === 0) return findings;
  const waiting = waitingCells(entries, blank);
  const broken = new Set(findings.flatMap((one) => (isError(one) && one.code !== 'cell.blank' ? [one.cell] : [])));
  return findings.flatMap((finding): readonly Finding[] => {
    if (!waiting.has(finding.cell)) return [finding];
    if (finding.code === 'cell.blank') return [{ ...finding, severity: 'information' }];
    return finding.code === 'log.unread' && !broken.has(finding.cell) ? [] : [finding];
  });
}

function isError(finding: Finding): boolean {
  return severity(finding) === 'error';
}

/** The cells at the end of the log below which nothing is measured, moved, begun or signed. */
function waitingCells(entries: readonly LogEntry[], blank: ReadonlySet<number>): ReadonlySet<number> {
  const waiting = new Set<number>();
  for (const { cell, entry } of entries.toReversed()) {
    const kind = entry.kind === 'unread' ? entry.of : entry.kind;
    if (kind === undefined || NEVER_WAITING.has(kind)) break;
    waiting.add(cell);
    if ((isWork(entry) && !blank.has(cell)) || kind === 'session' || kind === 'release') break;
  }
  return waiting;
}
