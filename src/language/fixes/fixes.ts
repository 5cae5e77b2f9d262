/** Fixes for findings: changes of the text, each with a title. Unambiguous ones can be applied together. */
import { shortened } from '../../words/index.ts';
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { conflictFixes } from './conflict-fixes.ts';
import { missingFixes } from './missing-fixes.ts';
import { mountFixes } from './mount-fixes.ts';
import { lineStartAt } from '../book/lines.ts';
import { orderFixes } from './order-fixes.ts';
import { slipFixes } from './slip-fixes.ts';
import { swapFixes } from './swap-fixes.ts';
import { stretchOf, type Change, type Fix } from './fix.ts';

/** The fixes of the findings that overlap a span of the file. */
export function fixesAt(book: Book, from: number, to: number): Fix[] {
  const touched = book.findings().filter((finding) => {
    const [start, end] = stretchOf(book, finding);
    return start <= to && end >= from;
  });
  return touched.flatMap((finding) => fixesOf(book, finding));
}

function fixesOf(book: Book, finding: Finding): Fix[] {
  return [
    ...ownFix(book, finding),
    ...conflictFixes(book, finding),
    ...missingFixes(book, finding),
    ...mountFixes(book, finding),
    ...orderFixes(book, finding),
    ...slipFixes(book, finding),
    ...swapFixes(book, finding),
    ...silencing(book, finding),
  ];
}

/** All unambiguous fixes, without overlapping changes. */
export function fixAll(book: Book): Change[] {
  const changes = book.findings().flatMap((finding) =>
    ownFix(book, finding)
      .filter(({ isSafe }) => isSafe)
      .flatMap((fix) => fix.changes),
  );
  const sorted = changes.toSorted((one, other) => one.start - other.start || one.end - other.end);
  return sorted.filter((change, k) => k === 0 || change.start >= sorted[k - 1]!.end);
}

/** Findings with an unambiguous fix: it changes the notation, not the meaning. */
const SAFE: ReadonlySet<string> = new Set([
  'name.quote',
  'cell.kindFirst',
  'allow.unused',
  'cell.flowMark',
  'quantity.decimalComma',
  'mark.comma',
  'shift.comma',
]);

/** The fix that came with the finding. */
function ownFix({ split, text }: Book, finding: Finding): Fix[] {
  const { fix, code } = finding;
  if (!fix) return [];
  const from = split.cells[finding.cell]?.start ?? 0;
  const [start, end] = [from + fix.span.start, from + fix.span.end];
  return [
    {
      title: titleOf(code, text.slice(start, end), fix.text),
      changes: [{ start, end, text: fix.text }],
      finding,
      isPreferred: true,
      isSafe: SAFE.has(code),
    },
  ];
}

function titleOf(code: string, old: string, text: string): string {
  switch (code) {
    case 'cell.kindFirst':
      return 'Move the kind to the top';
    case 'cell.kinds':
      return 'Put `---` between them';
    case 'name.quote':
      return `Quote it: ${text}`;
    case 'allow.unused':
      return 'Delete it: it silences nothing';
    default:
      return text.trim() === '' ? `Delete \`${shortened(old)}\`` : `Write \`${shortened(text)}\``;
  }
}

/** The user fills in the reason. */
function silencing(book: Book, finding: Finding): Fix[] {
  if (
    finding.cell < 0 ||
    finding.code.startsWith('allow.') ||
    finding.code.startsWith('cells.') ||
    finding.code.startsWith('yaml.')
  )
    return [];
  const [start] = stretchOf(book, finding);
  const line = lineStartAt(book.text, start);
  const indent = /^[ ]*/.exec(book.text.slice(line, start))![0];
  const end = book.text.includes('\r\n') ? '\r\n' : '\n';
  // Above a `---` it would belong to the cell before.
  if (book.text.startsWith('---', line)) return [];
  return [
    {
      title: `Intended: allow ${finding.code} here`,
      changes: [{ start: line, end: line, text: `${indent}# alignbook: allow ${finding.code}: the reason${end}` }],
      finding,
    },
  ];
}
