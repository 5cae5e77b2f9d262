/** The shots of a station, place by place: what was read, and where a mark that is placed is written. */
import {
  isVertical,
  lengthsIn,
  opposite,
  pathTo,
  waysOf,
  type Axes,
  type PanelShot,
  type Slot,
  type Step,
  type TargetFigure,
  type TargetPlace,
} from '../../model/index.ts';
import { placeInWords, placeName, shortPlace } from '../../words/index.ts';
import type { Book } from '../book/book-type.ts';
import { slotsOf } from '../book/mark-slots.ts';
import { MARK_IN_STEP } from '../edits/place-in-step.ts';

/** The figure with every place of the list, and the list. */
export interface Shots {
  readonly figure: TargetFigure;
  readonly shots: readonly PanelShot[];
}

/**
 * @param steps what is advised: if a shot of this station comes first, a mark can be placed at its places, and the step
 *   is logged with it
 */
export function shotsOf(book: Book, figure: TargetFigure, steps: readonly Step[]): Shots {
  const isLast = figure.round === figure.rounds;
  const written = isLast ? slotsOf(book, figure.station) : [];
  // A click must not overwrite marks read before something moved.
  const slots = figure.state === 'stale' ? written.filter(({ isBlank }) => isBlank) : written;
  const asked = slots.some(({ isBlank }) => isBlank) || !isLast ? [] : slotsInStep(book, figure.station, steps);
  const places = [...figure.places];
  const indexOf = (place: TargetPlace) => {
    const known = places.findIndex(({ brief }) => brief === place.brief);
    return known >= 0 ? known : places.push(place) - 1;
  };
  const placed = [...slots, ...asked].map((slot) => ({ slot, place: indexOf(slot.place) }));
  if (places.length === 0) for (const place of placesToShoot(book, figure.station)) indexOf(place);
  const shown = { ...figure, places };
  const shots = places.flatMap((_, k): PanelShot[] => {
    const own = placed.filter((one) => one.place === k);
    // A place that is shot again shows what was read there; the mark that is placed is a new one.
    const latest = own.filter(({ slot }) => slot.isBlank || !own.some((other) => other.slot.isBlank));
    if (latest.length === 0) return [shotAt(shown, k)];
    const aside = setAside(book, own);
    return latest.map(({ slot }) => shotAt(shown, k, slot, aside));
  });
  return { figure: shown, shots };
}

/** The marks that the advised shot asks for, in its order. */
function slotsInStep(book: Book, station: string, steps: readonly Step[]): Slot[] {
  const [first] = steps;
  if (first?.kind !== 'shoot' || first.station !== station || first.cell === undefined) return [];
  const carriages = carriagesAt(book, station);
  return first.shots.flatMap(({ at, with: others, height }, k): Slot[] =>
    height !== undefined
      ? []
      : [
          {
            cell: MARK_IN_STEP,
            path: pathTo('shots', String(k)),
            label: '',
            place: placeOf(carriages, at, others),
            isBlank: true,
          },
        ],
  );
}

/** Every place of the station: nothing was shot there. */
function placesToShoot(book: Book, station: string): TargetPlace[] {
  const carriages = carriagesAt(book, station);
  return book.log.whatIf(station, []).map(({ at, with: others }) => placeOf(carriages, at, others));
}

function carriagesAt(book: Book, station: string) {
  return book.evaluation().stations.find(({ name }) => name === station)?.carriages ?? [];
}

function placeOf(...place: Parameters<typeof placeInWords>): TargetPlace {
  return { brief: shortPlace(...place), full: placeInWords(...place), ...placeName(...place) };
}

const ONLY = 'one place only';

/** A mark that is written and counts for nothing until its place is shot again. */
function setAside(book: Book, own: readonly { readonly slot: Slot }[]): Slot | undefined {
  if (book.evaluation().unexplained === 0) return undefined;
  return own.map(({ slot }) => slot).find(({ right, up }) => right !== undefined && up !== undefined);
}

function shotAt(figure: TargetFigure, place: number, slot?: Slot, aside?: Slot): PanelShot {
  const { name, end } = figure.places[place]!;
  const of = <M extends { readonly place: number }>(marks: readonly M[]) =>
    marks.findLast((one) => one.place === place);
  const mark = of(figure.marks.filter(({ age }) => age !== 'earlier'));
  const half = of(figure.halves);
  const missed = of(figure.missed);
  const own = slot?.isBlank ? undefined : (mark ?? half ?? missed);
  const number = slot?.number;
  return {
    place,
    name: `${name || ONLY}${number === undefined ? '' : ` (${number})`}`,
    ...(end !== undefined && { end }),
    lines: own ? linesOf(figure, readAt(number === undefined ? mark : slot, half)) : notRead(figure, aside),
    state: own ? (figure.state === 'stale' ? 'stale' : 'read') : 'open',
    ...(own && { mark: { cell: own.cell, path: number === undefined ? own.path : slot!.path } }),
    ...(slot && { slot: { cell: slot.cell, path: slot.path } }),
    ...(slot?.right !== undefined && { right: slot.right }),
    ...(slot?.up !== undefined && { up: slot.up }),
  };
}

function readAt(
  mark: Partial<Axes> | undefined,
  half: TargetFigure['halves'][number] | undefined,
): Partial<Axes> | 'none' {
  return mark ?? (half ? { [half.read]: half.value } : 'none');
}

function notRead(figure: TargetFigure, aside: Slot | undefined): PanelShot['lines'] {
  return aside ? [...linesOf(figure, aside), { words: 'not explained by the log' }] : [{ words: 'not shot' }];
}

function linesOf({ frame }: TargetFigure, mark: Partial<Axes> | 'none'): PanelShot['lines'] {
  if (mark === 'none') return [{ words: 'none: the beam missed' }];
  return (['right', 'up'] as const).map((axis) => {
    const value = mark[axis];
    if (value === undefined) return { words: `${waysOf(axis, frame.runs)} not read` };
    const machine = value < 0 ? opposite(frame[axis]) : frame[axis];
    const viewer = axis === 'right' ? (value < 0 ? 'left' : 'right') : value < 0 ? 'down' : 'up';
    const amount = lengthsIn(frame.units).mark(Math.abs(value));
    if (Number(amount) === 0 || amount === lengthsIn(frame.units).mark(0)) return { words: '0' };
    if (isVertical(frame.runs) || viewer === machine) return { words: `${amount} ${machine}` };
    return { words: `${amount} ${viewer}`, machine: `machine ${machine}` };
  });
}
