/** Fixes for a version-control conflict: the cells of both sides merge in order of time. */
import { stretchOf, type Fix } from './fix.ts';
import { conflictsIn } from '../../cells/index.ts';
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { lineEndAt } from '../book/lines.ts';

export function conflictFixes(book: Book, finding: Finding): Fix[] {
  if (finding.code !== 'cells.conflict') return [];
  const [start] = stretchOf(book, finding);
  const conflict = conflictsIn(book.text).find(({ from }) => from === start);
  if (!conflict?.sides) return [];
  const { ours: own, theirs: other } = conflict.sides;
  const [ours, theirs] = [book.text.slice(own.from, own.to), book.text.slice(other.from, other.to)];
  const replacement = (title: string, text: string, isPreferred = false): Fix => ({
    title,
    changes: [{ start, end: conflict.to, text }],
    finding,
    isPreferred,
  });
  const { ours: oursName, theirs: theirsName } = finding.facts;
  return [
    replacement('Keep both, in order of time', inOrder(ours, theirs, book.text), true),
    replacement(`Keep this side${oursName ? ` (${oursName})` : ''}`, ours),
    replacement(`Keep the other side${theirsName ? ` (${theirsName})` : ''}`, theirs),
  ];
}

/** The cells of both sides; without dates this side comes first. */
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
