/**
 * The same machine aligned by the advice from where the learner began, its tapes read to the step: the short way, for
 * the closing sheet.
 */
import { stateAfter, worstUtilisation, type Hidden } from '../../simulator/index.ts';
import type { Limits, Step } from '../../model/index.ts';
import { createReader, type Tables } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { createBook } from '../book/book.ts';
import { addStep } from '../edits/add-step.ts';
import { withMark } from '../edits/place-mark.ts';
import { markWords } from './mark-words.ts';
import { burnsAtEnd } from './fire.ts';

/** The way to a machine that is within. */
export interface Way {
  /** The true utilisation of the worst limit after this number of tapes: 1 is just within. */
  readonly points: readonly WayPoint[];
  readonly adjustments: number;
  readonly tapes: number;
}

/** One moment of a way. */
export interface WayPoint {
  readonly tapes: number;
  readonly worst: number;
}

const MOST_ROUNDS = 60;

/** @param text of the workbook before the learner's first cell */
export function shortestWay(tables: Tables, text: string, hidden: Hidden, limits: Limits): Way {
  const book = createBook(tables, 'practice.alignbook.yaml', new Map(), text, createReader(tables));
  book.fold();
  const worst = () => worstUtilisation(hidden, stateAfter(hidden, book.workbook.entries), limits)?.share ?? 0;
  let [adjustments, tapes] = [0, 0];
  const points: WayPoint[] = [{ tapes: 0, worst: worst() }];
  for (let round = 0; round < MOST_ROUNDS && book.evaluation().verdict === 'continue'; round++) {
    const next = addStep(book);
    if (!next) break;
    adjustments += movesBefore(book.evaluation().steps);
    change(book, book.text + next.change.text);
    tapes += readTapes(book, limits.reading.resolution);
    points.push({ tapes, worst: worst() });
  }
  return { points, adjustments, tapes };
}

/** Turns and shifts up to the next shot. */
function movesBefore(steps: readonly Step[]): number {
  const shot = steps.findIndex(({ kind }) => kind === 'shoot');
  return steps.slice(0, shot < 0 ? steps.length : shot).filter(({ kind }) => kind === 'turn' || kind === 'shift')
    .length;
}

function change(book: Book, text: string): void {
  book.change(text);
  book.fold();
}

/** Fills in the blanks of the last cell. @returns how many */
function readTapes(book: Book, resolution: number): number {
  const burns = burnsAtEnd(book);
  const last = book.workbook.entries.at(-1);
  if (!last || burns.length === 0) return 0;
  const { start, text } = book.split.cells[last.cell]!;
  const filled = burns
    .map((fired) => withMark(text, last.entry.spans[fired.place.path]!, markWords(book, fired, resolution)))
    .toSorted((one, other) => other.start - one.start)
    .reduce((sofar, one) => sofar.slice(0, one.start) + one.text + sofar.slice(one.end), text);
  change(book, book.text.slice(0, start) + filled);
  return burns.length;
}
