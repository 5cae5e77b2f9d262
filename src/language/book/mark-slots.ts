/** The marks that a marks cell has places for, blank ones included. */
import { placeInWords, placeName, shortPlace } from '../../words/index.ts';
import {
  child,
  isBelow,
  keysOf,
  parentOf,
  pathsIn,
  pathTo,
  type Entry,
  type Mark,
  type MarksEntry,
  type Path,
  type Slot,
  type Spans,
  type StationReport,
  type TargetPlace,
} from '../../model/index.ts';
import type { Book } from './book-type.ts';

/**
 * The marks of the last cell about a station, blank ones included; tapes on the bed have no centre and are left out.
 */
export function slotsOf(book: Book, station: string): Slot[] {
  const last = lastAbout(book, station);
  if (!last) return [];
  const { entry, cell, text } = last;
  const read = entry.kind === 'marks' ? marksRead(entry) : new Map<Path, Mark>();
  const carriages = book.log.report(station, book.workbook.entries.length)?.carriages ?? [];
  return markPaths(entry.spans).map((path): Slot => {
    const mark = read.get(path);
    const { number, ...place } = placeOf(path, entry, text, carriages);
    return {
      cell,
      path,
      label: `${place.brief || 'here'}${number === undefined ? '' : ` (${number})`}`,
      place,
      ...(number !== undefined && { number }),
      ...(textAt(path, entry.spans, text) === '' && { isBlank: true }),
      ...(mark?.right !== undefined && { right: mark.right }),
      ...(mark?.up !== undefined && { up: mark.up }),
    };
  });
}

/** The marks that a cell leaves blank, of all that it has places for. */
interface Blanks {
  readonly station: string;
  readonly blank: readonly Slot[];
  readonly count: number;
}

/** The marks that the last cell leaves blank, as the advice does, and their station. Undefined if there are none. */
export function blanksAtEnd(book: Book): Blanks | undefined {
  const last = book.workbook.entries.at(-1);
  if (!last || !isOfMarks(last.entry)) return undefined;
  const station = textAt(MARKS, last.entry.spans, book.split.cells[last.cell]!.text);
  const slots = slotsOf(book, station);
  const blank = slots.filter(({ isBlank }) => isBlank);
  return blank.length === 0 ? undefined : { station, blank, count: slots.length };
}

/** The marks of a cell by their paths. */
export function marksRead({ shots, spans }: MarksEntry): Map<Path, Mark> {
  return new Map(
    shots.flatMap(({ path, marks }) =>
      marks.map((mark, k) => {
        const item = child(path, k);
        return [marks.length > 1 || spans[item] ? item : path, mark] as const;
      }),
    ),
  );
}

export function isOfMarks(entry: Entry): boolean {
  return entry.kind === 'marks' || (entry.kind === 'unread' && entry.of === 'marks');
}

function lastAbout(book: Book, station: string) {
  const { entries, split } = book.workbook;
  for (let k = entries.length - 1; k >= 0; k--) {
    const { entry, cell } = entries[k]!;
    const isMarks = isOfMarks(entry);
    const text = isMarks ? split.cells[cell]!.text : '';
    if (isMarks && textAt(MARKS, entry.spans, text) === station) return { entry, cell, text };
    if (entry.kind === 'session') return undefined;
  }
  return undefined;
}

/** The text at a path; empty where nothing is written. */
export function textAt(path: Path, spans: Spans, text: string): string {
  const span = spans[path];
  return span ? text.slice(span.start, span.end) : '';
}

export const MARKS = pathTo('marks');
export const SHOTS = pathTo('shots');

/** The keys of a shot in a list beside its `mark`, and those of a mark that is a mapping. */
const OF_SHOT: ReadonlySet<string> = new Set(['at', 'with', 'height']);
const OF_MARK: ReadonlySet<string> = new Set(['right', 'up', 'size', 'shape']);

/**
 * The paths of single marks, which are `shots`, `shots/near`, `shots/near/1`, `shots/0`, `shots/0/mark` and
 * `shots/0/mark/1` in the forms that a cell may have.
 *
 * @param withBed also those of tapes on the bed, which have no centre
 */
export function markPaths(spans: Spans, withBed = false): Path[] {
  const paths = pathsIn(spans).filter((path) => path === SHOTS || isBelow(path, SHOTS));
  // The whole of the shots is one mark.
  const below = paths.filter((path) => path !== SHOTS);
  if (below.length > 0 && isMapping(SHOTS, below, spans)) return [SHOTS];
  return paths.filter((path) => {
    const [, shot, ...inner] = keysOf(path);
    const isDetail = OF_SHOT.has(inner[0]!) || OF_MARK.has(inner.at(-1)!);
    const isOnBed = !withBed && shot !== undefined && spans[pathTo('shots', shot, 'height')] !== undefined;
    if (isDetail || isOnBed) return false;
    const below = paths.filter((other) => isBelow(other, path));
    return below.length === 0 || isMapping(path, below, spans);
  });
}

/** Whether the values below a path are those of one mark. It is rewritten number by number, so both must be there. */
function isMapping(path: Path, below: readonly Path[], spans: Spans): boolean {
  const areOfMark = below.every((one) => parentOf(one) === path && OF_MARK.has(keysOf(one).at(-1)!));
  return areOfMark && spans[child(path, 'right')] !== undefined && spans[child(path, 'up')] !== undefined;
}

/** The place of the carriages, and the number of the mark where several are read there. */
interface SlotPlace extends TargetPlace {
  /** From 1; absent if one mark is read there. */
  readonly number?: number;
}

/** An item of a list without places is a mark at the only place. */
function placeOf(path: Path, entry: Entry, text: string, carriages: StationReport['carriages']): SlotPlace {
  const { spans } = entry;
  const [, shot, ...inner] = keysOf(path);
  const whole = shot === undefined ? SHOTS : child(SHOTS, shot);
  const isInList = spans[child(whole, 'mark')] !== undefined;
  const isItem = shot !== undefined && /^\d+$/.test(shot) && !isInList;
  const [at, others] =
    shot === undefined || isItem ? (['here', {}] as const) : isInList ? stopsIn(whole, entry, text) : [shot, {}];
  const repeat = isItem ? shot : isInList ? inner[1] : inner[0];
  return {
    brief: shortPlace(carriages, at, others),
    full: placeInWords(carriages, at, others),
    ...placeName(carriages, at, others),
    ...(repeat !== undefined && /^\d+$/.test(repeat) && { number: Number(repeat) + 1 }),
  };
}

type Stop = string | number;

/** As they were read, else as they are written. */
function stopsIn(shot: Path, entry: Entry, text: string): readonly [at: Stop, others: Readonly<Record<string, Stop>>] {
  const { spans } = entry;
  const read =
    entry.kind === 'marks' ? entry.shots.find(({ path }) => path === shot || path === child(shot, 'mark')) : undefined;
  if (read) return [read.at, read.with];
  const named = pathsIn(spans).filter((one) => isBelow(one, child(shot, 'with')));
  const others = named.map((one) => [keysOf(one).at(-1)!, textAt(one, spans, text)]);
  return [textAt(child(shot, 'at'), spans, text), Object.fromEntries(others)];
}

/** Where a mark was shot, as written: the stop or leg, the other carriages, the height; and its number among repeats. */
export function placeOfMark(path: Path, spans: Spans, text: string) {
  const [, shot, ...inner] = keysOf(path);
  if (shot === undefined) return { at: 'here', others: {} };
  const whole = child(SHOTS, shot);
  const isInList = spans[child(whole, 'mark')] !== undefined;
  const carriagesNamed = pathsIn(spans).filter((one) => isBelow(one, child(whole, 'with')));
  const repeat = isInList ? inner[1] : inner[0];
  const height = textAt(child(whole, 'height'), spans, text);
  return {
    at: (isInList ? textAt(child(whole, 'at'), spans, text) : shot) || 'here',
    others: Object.fromEntries(carriagesNamed.map((one) => [keysOf(one).at(-1)!, textAt(one, spans, text)])),
    ...(height !== '' && { height }),
    ...(repeat !== undefined && /^\d+$/.test(repeat) && { number: Number(repeat) + 1 }),
  };
}
