/** Writes a mark that was placed on the target: it replaces one value, in the words and the unit of its cell. */
import { appendCells } from '../../cells/index.ts';
import { nameInCell } from '../../words/index.ts';
import { withAmendment, type Corrected } from '../../workbook/index.ts';
import { smallest } from './formatting.ts';
import {
  child,
  isBelow,
  isVertical,
  keysOf,
  lengthsIn,
  opposite,
  pathsIn,
  pathTo,
  viewer,
  type Axes,
  type Machine,
  type Path,
  type Span,
  type Spans,
  type TextPlace,
} from '../../model/index.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';
import { machineAt } from '../book/machine-at.ts';
import { markPaths, MARKS, SHOTS, textAt } from '../book/mark-slots.ts';

/** mm: half a division of a ruler, the default where the limits give no resolution. */
const RESOLUTION = 0.5;

/** mm: the resolution of readings. */
export function resolutionOf(book: Book): number {
  const entry = book.last('limits', Infinity)?.entry;
  return entry?.kind === 'limits' ? entry.limits.reading.resolution : RESOLUTION;
}

/** mm, viewer's frame; a fine one is rounded to a tenth of the resolution. `none` where the beam missed the tape. */
export type PlacedPoint = (Axes & { readonly fine?: boolean }) | 'none';

const FINE = 10;

/**
 * The changes that write a mark, rounded to the resolution of readings. Undefined if there is no single mark at the
 * path, or no machine gives the direction of the beam.
 */
export function placeMark(book: Book, place: TextPlace, point: PlacedPoint): Change[] | undefined {
  const target = targetAt(book, place);
  if (!target) return undefined;
  const { path } = place;
  const { own, spans, leg } = target;
  const changes =
    point !== 'none' && spans[child(path, 'right')] && spans[child(path, 'up')]
      ? numbers(spans, path, snappedTo(book, point), leg)
      : [withMark(own.text, spans[path]!, markInCell(book, point, leg))];
  return changes.map((change) => ({ ...change, start: own.start + change.start, end: own.start + change.end }));
}

/** The change that writes the mark into a new visit at the end of the log: of the same station, at the same place. */
export function placeInNewVisit(book: Book, place: TextPlace, point: PlacedPoint): Change[] | undefined {
  const target = targetAt(book, place);
  if (!target) return undefined;
  const { own, spans, leg } = target;
  const words = markInCell(book, point, leg);
  const seen = leg.mirrored ? `seen: ${textAt(pathTo('seen'), spans, own.text)}\n` : '';
  const cell = `marks: ${textAt(MARKS, spans, own.text)}\nshots: ${shotOf(place.path, spans, own.text, words)}\n${seen}`;
  const { length } = book.text;
  return [
    { start: length, end: length, text: appendCells(book.text, ['session: another look\n', cell]).slice(length) },
  ];
}

/** The change that corrects a mark of a past cell: the cell with the mark, and in `amended` what it was before. */
export function amendMark(book: Book, place: TextPlace, point: PlacedPoint, why: Corrected): Change[] | undefined {
  const own = book.split.cells[place.cell];
  const changes = placeMark(book, place, point);
  if (!own || !changes) return undefined;
  const corrected = changes
    .toSorted((one, other) => other.start - one.start)
    .reduce(
      (text, { start, end, text: put }) => text.slice(0, start - own.start) + put + text.slice(end - own.start),
      own.text,
    );
  const text = withAmendment(own.text, corrected, why);
  return text === undefined ? [] : [smallest(own.start, own.text, text)];
}

/** The value of `shots` with this mark alone. */
function shotOf(path: Path, spans: Spans, text: string, words: string): string {
  const [, shot] = keysOf(path);
  if (shot === undefined) return words;
  const whole = child(SHOTS, shot);
  if (!spans[child(whole, 'mark')]) return /^\d+$/.test(shot) ? words : `{${nameInCell(shot)}: ${words}}`;
  const others = pathsIn(spans)
    .filter((one) => isBelow(one, child(whole, 'with')))
    .map((one) => `${nameInCell(keysOf(one).at(-1)!)}: ${textAt(one, spans, text)}`);
  const carriages = others.length > 0 ? `, with: {${others.join(', ')}}` : '';
  return `[{at: ${textAt(child(whole, 'at'), spans, text)}${carriages}, mark: ${words}}]`;
}

interface Target {
  readonly own: { readonly start: number; readonly text: string };
  readonly spans: Spans;
  readonly leg: Leg;
}

/** The single mark at this place, and the direction of its beam. */
function targetAt(book: Book, { cell, path }: TextPlace): Target | undefined {
  const logged = book.workbook.entries.find((one) => one.cell === cell && one.entry.spans[path]);
  const machine = machineAt(book, cell);
  const own = book.split.cells[cell];
  if (!logged || !machine || !own || !markPaths(logged.entry.spans).includes(path)) return undefined;
  const { spans } = logged.entry;
  const runs = arrivesAt(machine, textAt(MARKS, spans, own.text));
  return runs && { own, spans, leg: { machine, runs, mirrored: spans[pathTo('seen')] !== undefined } };
}

/** A mark as it is written in a cell of this leg. */
export function markInCell(book: Book, point: PlacedPoint, leg: Leg): string {
  return point === 'none' ? point : legWords(snappedTo(book, point), leg);
}

function snappedTo(book: Book, { right, up, fine }: Exclude<PlacedPoint, 'none'>): Axes {
  const step = resolutionOf(book) / (fine ? FINE : 1);
  return { right: snap(right, step), up: snap(up, step) };
}

/** A mark as a mapping: two signed numbers in the viewer's frame. */
function numbers(spans: Spans, path: Path, { right, up }: Axes, { machine, mirrored }: Leg): Change[] {
  const { written } = lengthsIn(machine.units);
  const signed = (value: number) => `${value < 0 ? '-' : ''}${written(Math.abs(value))}`;
  return [
    { ...spans[child(path, 'right')]!, text: signed(mirrored ? -right : right) },
    { ...spans[child(path, 'up')]!, text: signed(up) },
  ];
}

function snap(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toFixed(6)) + 0;
}

interface Leg {
  readonly machine: Machine;
  readonly runs: Parameters<typeof viewer>[0];
  /** The cell's marks are seen from behind. */
  readonly mirrored: boolean;
}

/** `1.5 right 2 down`; the machine's words on a vertical leg; mirrored if the cell is seen from behind. */
export function legWords({ right, up }: Axes, { machine, runs, mirrored }: Leg): string {
  if (right === 0 && up === 0) return 'centre';
  const { written } = lengthsIn(machine.units);
  const { rightWord, upWord } = viewer(runs);
  const across = isVertical(runs)
    ? right < 0
      ? opposite(rightWord)
      : rightWord
    : right < 0 !== mirrored
      ? 'left'
      : 'right';
  const upward = isVertical(runs) ? (up < 0 ? opposite(upWord) : upWord) : up < 0 ? 'down' : 'up';
  return `${written(Math.abs(right))} ${across} ${written(Math.abs(up))} ${upward}`;
}

/** Replaces the old text, but keeps the size and shape of the burn; inserts after the colon if there is none. */
export function withMark(text: string, { start, end }: Span, words: string): Change {
  const old = text.slice(start, end);
  if (old !== '') {
    const quote = /^["']/.exec(old)?.[0] ?? '';
    const looks = /(?<!\s)\s+(?:size|shape)\b[^]*?(?=["']?$)/.exec(old)?.[0] ?? '';
    return { start, end, text: `${quote}${words}${looks}${quote}` };
  }
  const colon = text.indexOf(':', start) + 1;
  const at = text[colon] === ' ' ? colon + 1 : colon;
  const follows = /^[#\S]/.test(text.slice(at)) && !/^[,}\]]/.test(text.slice(at)) ? ' ' : '';
  return { start: at, end: at, text: `${at === colon ? ' ' : ''}${words}${follows}` };
}
