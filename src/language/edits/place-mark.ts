/** Writes a mark that was placed on the target: it replaces one value, in the words and the unit of its cell. */
import { shortPlace } from '../../words/index.ts';
import {
  isVertical,
  lengthsIn,
  opposite,
  viewer,
  type Axes,
  type Machine,
  type Slot,
  type Span,
  type Spans,
  type StationReport,
  type TextPlace,
} from '../../model/index.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';
import { machineAt } from '../book/machine-at.ts';

/** mm: half a division of a ruler, the default where the limits give no resolution. */
const RESOLUTION = 0.5;

/** mm: the resolution of readings. */
export function resolutionOf(book: Book): number {
  const entry = book.last('limits', Infinity)?.entry;
  return entry?.kind === 'limits' ? entry.limits.reading.resolution : RESOLUTION;
}

/**
 * The marks of the last cell about a station, blank ones included; tapes on the bed have no centre and are left out.
 */
export function slotsOf(book: Book, station: string): Slot[] {
  const last = lastAbout(book, station);
  if (!last) return [];
  const { spans, text, cell } = last;
  const placed = new Map(
    last.entry.kind === 'marks'
      ? last.entry.shots.flatMap(({ path, marks }) =>
          marks.map((mark, k) => [marks.length > 1 || spans[`${path}/${k}`] ? `${path}/${k}` : path, mark] as const),
        )
      : [],
  );
  const carriages = book.log.report(station, book.workbook.entries.length)?.carriages ?? [];
  const textAt = (path: string) => (spans[path] ? text.slice(spans[path].start, spans[path].end) : '');
  return markPaths(spans).map((path): Slot => {
    const mark = placed.get(path);
    return {
      cell,
      path,
      label: labelOf(path, spans, textAt, carriages),
      ...(mark?.right !== undefined && { right: mark.right }),
      ...(mark?.up !== undefined && { up: mark.up }),
    };
  });
}

function lastAbout(book: Book, station: string) {
  const { entries, split } = book.workbook;
  for (let k = entries.length - 1; k >= 0; k--) {
    const { entry, cell } = entries[k]!;
    const isMarks = entry.kind === 'marks' || (entry.kind === 'unread' && entry.of === 'marks');
    const text = isMarks ? split.cells[cell]!.text : '';
    const name = entry.spans['marks'];
    if (isMarks && name && text.slice(name.start, name.end) === station)
      return { entry, cell, text, spans: entry.spans };
    if (entry.kind === 'session') return undefined;
  }
  return undefined;
}

const MAPPED = ['right', 'up', 'size', 'shape'];

/** Paths of single marks: paths with no children except a mark's own keys, and that are no place of a carriage. */
function markPaths(spans: Spans): string[] {
  const paths = Object.keys(spans).filter((path) => path === 'shots' || path.startsWith('shots/'));
  return paths.filter((path) => {
    const below = paths.filter((other) => other.startsWith(`${path}/`)).map((other) => other.slice(path.length + 1));
    const keys = path.split('/');
    const isDetail =
      keys.length > 2 &&
      ['at', 'with', 'height', 'right', 'up', 'size', 'shape'].includes(keys[2] === 'with' ? 'with' : keys.at(-1)!);
    const onBed = keys.length > 2 && spans[`${keys[0]}/${keys[1]}/height`] !== undefined;
    // A mapping is rewritten number by number, so both must be there.
    return (
      !isDetail &&
      !onBed &&
      (below.length === 0 ||
        (below.includes('right') && below.includes('up') && below.every((part) => MAPPED.includes(part))))
    );
  });
}

function labelOf(
  path: string,
  spans: Spans,
  textAt: (path: string) => string,
  carriages: StationReport['carriages'],
): string {
  const [, shot, mark, repeat] = path.split('/');
  if (shot === undefined) return 'here';
  const isList = spans[`shots/${shot}/mark`] !== undefined;
  const others = Object.fromEntries(
    Object.keys(spans)
      .filter((one) => one.startsWith(`shots/${shot}/with/`))
      .map((one) => [one.split('/').at(-1)!, textAt(one)]),
  );
  const at = isList ? textAt(`shots/${shot}/at`) : shot;
  const number = isList ? repeat : mark;
  return `${shortPlace(carriages, at, others) || 'here'}${number !== undefined && /^\d+$/.test(number) ? ` (${Number(number) + 1})` : ''}`;
}

/**
 * The changes that write a mark, rounded to the resolution of readings. Undefined if there is no single mark at the
 * path, or no machine gives the direction of the beam.
 *
 * @param point mm, viewer's frame
 */
export function placeMark(book: Book, { cell, path }: TextPlace, point: Axes): Change[] | undefined {
  const logged = book.workbook.entries.find((one) => one.cell === cell && one.entry.spans[path]);
  const machine = machineAt(book, cell);
  const own = book.split.cells[cell];
  if (!logged || !machine || !own || !markPaths(logged.entry.spans).includes(path)) return undefined;
  const { spans } = logged.entry;
  const station = own.text.slice(spans['marks']?.start, spans['marks']?.end);
  const runs = arrivesAt(machine, station);
  if (!runs) return undefined;
  const step = resolutionOf(book);
  const snapped = { right: snap(point.right, step), up: snap(point.up, step) };
  const leg = { machine, runs, mirrored: spans['seen'] !== undefined };
  const changes =
    spans[`${path}/right`] && spans[`${path}/up`]
      ? numbers(spans, path, snapped, leg)
      : [written(own.text, spans[path]!, inWords(snapped, leg))];
  return changes.map((change) => ({ ...change, start: own.start + change.start, end: own.start + change.end }));
}

/** A mark as a mapping: two signed numbers in the viewer's frame. */
function numbers(spans: Spans, path: string, { right, up }: Axes, { machine, mirrored }: Leg): Change[] {
  const { written } = lengthsIn(machine.units);
  const signed = (value: number) => `${value < 0 ? '-' : ''}${written(Math.abs(value))}`;
  return [
    { ...spans[`${path}/right`]!, text: signed(mirrored ? -right : right) },
    { ...spans[`${path}/up`]!, text: signed(up) },
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
function inWords({ right, up }: Axes, { machine, runs, mirrored }: Leg): string {
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
function written(text: string, { start, end }: Span, words: string): Change {
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
