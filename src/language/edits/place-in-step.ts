/** Writes a mark that was placed where no cell has a place for it yet: the advised shot is logged with it. */
import { appendCells } from '../../cells/index.ts';
import { keysOf, type TextPlace } from '../../model/index.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';
import type { Change } from '../fixes/fix.ts';
import { adviceNow } from '../hints/advice-now.ts';
import { markInCell, type PlacedPoint } from './place-mark.ts';

/** The cell of a mark whose path names a shot of the advised step: no cell has this number. */
export const MARK_IN_STEP = -1;

/** A value to fill in: nothing between the colon and what closes it. */
const OPEN = /: (?=\r?\n|[,}]|$)/g;

/** Undefined if the advice is another one by now. */
export function placeInStep(book: Book, { path }: TextPlace, point: PlacedPoint): Change[] | undefined {
  const [step] = adviceNow(book).steps;
  const machine = machineAt(book, Infinity);
  const shot = Number(keysOf(path)[1]);
  if (step?.kind !== 'shoot' || step.cell === undefined || !machine || !(shot < step.shots.length)) return undefined;
  const runs = arrivesAt(machine, step.station);
  if (!runs) return undefined;
  const words = markInCell(book, point, { machine, runs, mirrored: false });
  let blank = 0;
  const cell = step.cell.replace(OPEN, (open) => (blank++ === shot ? `: ${words}` : open));
  const { length } = book.text;
  return blank <= shot
    ? undefined
    : [{ start: length, end: length, text: appendCells(book.text, [cell]).slice(length) }];
}
