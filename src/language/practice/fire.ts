/**
 * Shots of the simulated machine for the blanks of a marks cell: what a tape would show now. This is the only way in
 * which anything of the hidden machine leaves the simulator before a mark is logged.
 */
import {
  child,
  isBelow,
  pathsIn,
  type LogEntry,
  type MarksEntry,
  type Path,
  type Shot,
  type Spans,
  type TextPlace,
} from '../../model/index.ts';
import { burnAt, hiddenMachine, stateAfter, type Burn } from '../../simulator/index.ts';
import type { Book } from '../book/book-type.ts';
import { practiceAt } from '../book/practice-at.ts';
import { MARKS, SHOTS, textAt } from '../book/mark-slots.ts';
import { withMark } from '../edits/place-mark.ts';

/** One mark of a cell: what was read there, if anything yet, and what its tape shows. */
export interface FiredMark {
  readonly place: TextPlace;
  readonly station: string;
  readonly shot: Shot;
  readonly burn: Burn;
  readonly isBlank: boolean;
  /** As read, viewer's frame; absent for a blank, a mark that misses a coordinate, or `none`. */
  readonly read?: { readonly right: number; readonly up: number };
}

/** Every mark of a marks cell, fired. Empty if the cell is none, cannot be read, or belongs to a real machine. */
export function firedMarks(book: Book, cell: number): FiredMark[] {
  const practice = practiceAt(book, cell);
  const own = book.split.cells[cell];
  const logged = book.workbook.entries.find((one) => one.cell === cell && isOfMarks(one));
  if (!practice || !own || !logged) return [];
  const blanks = blankPaths(logged.entry.spans, own.text);
  const whole = withBlanksFilled(book, cell, logged.entry.spans, blanks);
  const entries = book.readAs(whole).entries;
  const entry = entries.findLast((one) => one.cell === cell)?.entry;
  if (entry?.kind !== 'marks') return [];
  const above = entries.filter((one) => one.cell < cell);
  const hidden = hiddenMachine(practice.machine, practice.simulation);
  const state = stateAfter(hidden, above);
  const number = above.filter(isOfMarks).length;
  return entry.shots.flatMap((shot, k) =>
    shot.marks.flatMap((mark, repeat): FiredMark[] => {
      const path = pathOfMark(entry, shot, repeat);
      const at = { station: entry.station, carriages: shot.carriages, height: shot.height };
      const burn = burnAt(hidden, state, at, [number, k, repeat]);
      if (!burn) return [];
      const isBlank = blanks.includes(path);
      const { right, up } = mark;
      const isRead = !isBlank && right !== undefined && up !== undefined;
      return [
        { place: { cell, path }, shot, station: entry.station, burn, isBlank, ...(isRead && { read: { right, up } }) },
      ];
    }),
  );
}

/** The station of a mark's cell, while that is the last one about a shot. */
export function firedStation(book: Book, { cell }: TextPlace): string | undefined {
  const last = book.workbook.entries.findLast(isOfMarks);
  if (!last || last.cell !== cell || !practiceAt(book, cell)) return undefined;
  return textAt(MARKS, last.entry.spans, book.split.cells[cell]!.text);
}

/** The shots of the blanks of the last cell; empty if it has none. */
export function burnsAtEnd(book: Book): FiredMark[] {
  const last = book.workbook.entries.at(-1);
  return last ? firedMarks(book, last.cell).filter(({ isBlank }) => isBlank) : [];
}

/** A marks cell, with errors or without: blank ones have errors. */
export function isOfMarks({ entry }: Pick<LogEntry, 'entry'>): boolean {
  return entry.kind === 'marks' || (entry.kind === 'unread' && entry.of === 'marks');
}

function pathOfMark({ spans }: MarksEntry, { path, marks }: Shot, repeat: number): Path {
  const item = child(path, repeat);
  return marks.length > 1 || spans[item] ? item : path;
}

/** Values below `shots` with nothing in them. */
function blankPaths(spans: Spans, text: string): Path[] {
  const paths = pathsIn(spans).filter((path) => path === SHOTS || isBelow(path, SHOTS));
  return paths.filter(
    (path) => textAt(path, spans, text).trim() === '' && !paths.some((other) => isBelow(other, path)),
  );
}

/** The text up to the end of the cell with a mark in each blank, so that it can be read where its shots are. */
function withBlanksFilled(book: Book, cell: number, spans: Spans, blanks: readonly Path[]): string {
  const { start, text } = book.split.cells[cell]!;
  const filled = blanks
    .map((path) => withMark(text, spans[path]!, 'centre'))
    .toSorted((one, other) => other.start - one.start)
    .reduce((sofar, change) => sofar.slice(0, change.start) + change.text + sofar.slice(change.end), text);
  return book.text.slice(0, start) + filled;
}
