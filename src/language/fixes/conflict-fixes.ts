/** A conflict of a version control system: a log of two people is one log, in the order of time. */
import { stretchOf, type Fix } from './fix.ts';
import { conflictsIn } from '../../cells/index.ts';
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { lineEndAt } from '../book/lines.ts';

export function conflictFixes(book: Book, finding: Finding): Fix[] {
  if (finding.code !== 'cells.conflict') return [];
  const [start] = stretchOf(book, finding);
  const found = conflictsIn(book.text).find(({ from }) => from === start);
  if (!found?.sides) return [];
  const { ours: own, theirs: other } = found.sides;
  const [ours, theirs] = [book.text.slice(own.from, own.to), book.text.slice(other.from, other.to)];
  const keep = (title: string, text: string, isPreferred = false): Fix => ({
    title,
    changes: [{ start, end: found.to, text }],
    finding,
    isPreferred,
  });
  const { ours: oursName, theirs: theirsName } = finding.facts;
  return [
    keep('Keep both, in order of time', inOrder(ours, theirs, book.text), true),
    keep(`Keep this side${oursName ? ` (${oursName})` : ''}`, ours),
    keep(`Keep the other side${theirsName ? ` (${theirsName})` : ''}`, theirs),
  ];
}

/** Cells of both; where they have no dates this side comes first. */
function inOrder(ours: string, theirs: string, text: string): string {
  const [first, second] = dateOf(ours) > dateOf(theirs) ? [theirs, ours] : [ours, theirs];
  const separated = isOpened(second) || first === '' || second === '';
  const end = text[lineEndAt(text, 0)] === '\r' ? '\r\n' : '\n';
  return separated ? first + second : `${first}---${end}${second}`;
}

function isOpened(side: string): boolean {
  return /^---\s/.test(side);
}

function dateOf(side: string): string {
  return /^date:[ \t]*["']?(\d{4}-\d{2}-\d{2}(?:[T ][\d:]+)?)/m.exec(side)?.[1] ?? '';
}
