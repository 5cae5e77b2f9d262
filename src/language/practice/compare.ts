/** After a mark is logged: what was expected, what was read, and where it came. mm. */
import type { Axes } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { wherePlaced } from './burn-figure.ts';
import { expectationOf, placeKey } from './expected.ts';
import { practiceAt } from '../book/practice-at.ts';
import { firedMarks, isOfMarks, type FiredMark } from './fire.ts';

/** One logged mark beside the true one. */
export interface ComparedMark {
  readonly fired: FiredMark;
  readonly station: string;
  /** Where the carriages stood, in words. */
  readonly place: string;
  readonly expected?: Axes;
  readonly read: Axes;
  readonly came: Axes;
  /** How far the reading and the expectation are from where it came. */
  readonly misread: number;
  readonly surprise?: number;
}

/** The logged marks of a cell; empty for blanks, for a tape without a mark, and for real machines. */
export function comparedMarks(book: Book, cell: number): ComparedMark[] {
  const expectation = expectationOf(book, cell);
  return firedMarks(book, cell).flatMap((fired): ComparedMark[] => {
    const { burn, read, station, shot } = fired;
    if (burn.none || !read) return [];
    const came = { right: burn.right, up: burn.up };
    const expected = expectation.get(placeKey(shot));
    return [
      {
        fired,
        station,
        place: wherePlaced(book, fired),
        ...(expected && { expected, surprise: apart(expected, came) }),
        read,
        came,
        misread: apart(read, came),
      },
    ];
  });
}

/** The last marks cell with something to compare. */
export function lastCompared(book: Book): ComparedMark[] {
  const cells = ownCells(book).toReversed();
  for (const cell of cells) {
    const marks = comparedMarks(book, cell);
    if (marks.length > 0) return marks;
  }
  return [];
}

/** The learner's own marks cells, oldest first: a worked example and a log that somebody began are not theirs. */
export function ownCells(book: Book): number[] {
  const { entries } = book.workbook;
  return entries
    .slice(ownStart(book))
    .filter(isOfMarks)
    .map(({ cell }) => cell);
}

/** Index of the first entry of the learner. */
export function ownStart(book: Book): number {
  const { entries } = book.workbook;
  const level = practiceAt(book)?.simulation.level;
  const sessions = entries.flatMap(({ entry }, index) => (entry.kind === 'session' ? [index] : []));
  return (level === 1 || level === 5 ? sessions[1] : sessions[0]) ?? 0;
}

function apart(one: Axes, other: Axes): number {
  return Math.hypot(one.right - other.right, one.up - other.up);
}
