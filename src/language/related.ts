/** Places that a finding is about besides its own: what a name was looked up in, the limit or the hole that is passed. */
import type { Finding, LogEntry, Span } from '../model/index.ts';
import type { Book } from './book.ts';

export interface Related {
  readonly cell: number;
  readonly span: Span;
  readonly message: string;
}

export function relatedOf(book: Book, finding: Finding): Related[] {
  const { entries } = book.workbook;
  const above = (kind: LogEntry['entry']['kind']) => entries.findLast(({ cell, entry }) => entry.kind === kind && cell <= Math.max(finding.cell, 0));
  switch (finding.code) {
    case 'name.unknown':
    case 'turn.knob':
    case 'mark.words': return at(above('machine'), ['path', 'machine'], 'The machine that is in force here');
    case 'mark.outside': return at(above('machine'), holeOf(entries, finding), 'The hole that the tape covers');
    case 'log.noLimits': return at(above('limits'), ['stations', 'limits'], 'The limits that are in force here');
    case 'log.height': return at(above('limits'), [`stations/${finding.facts['station']}`, 'stations'], 'The limit that is passed');
    case 'date.order': return at(entries.findLast(({ cell, entry }) => cell < finding.cell && entry.date !== undefined), ['date'], 'The date before it');
    default: return [];
  }
}

function holeOf(entries: readonly LogEntry[], { cell }: Finding): string[] {
  const entry = entries.find((logged) => logged.cell === cell && logged.entry.kind === 'marks')?.entry;
  return entry?.kind === 'marks' ? [`path/${entry.station}/aperture`, 'path', 'from'] : ['path'];
}

/** At the first of these paths that is written. */
function at(logged: LogEntry | undefined, paths: readonly string[], message: string): Related[] {
  if (!logged) return [];
  const path = paths.find((one) => Object.hasOwn(logged.entry.spans, one));
  return path === undefined ? [] : [{ cell: logged.cell, span: logged.entry.spans[path]!, message }];
}
