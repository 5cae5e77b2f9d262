/**
 * How far the simulated machine really is within its limits, over both travels: for the closing sheet and for tests,
 * never while somebody works.
 */
import { hit, type Carriages, type Hit } from '../optics/index.ts';
import type { Limits } from '../model/index.ts';
import { settingAt } from './burn.ts';
import type { Hidden } from './hidden.ts';
import { travelsOf } from './layout.ts';
import type { HiddenState } from './state.ts';

/** A limit and its true utilisation: 1 is just within. */
export interface TrueUtilisation {
  readonly station: string;
  readonly limit: 'centre' | 'spread' | 'plumb';
  readonly share: number;
  /** mm, or slope for plumb; infinite where the beam does not arrive. */
  readonly value: number;
}

/** Fractions of a travel: rails are worst at an end or in the middle. */
const ALONG = [0, 0.25, 0.5, 0.75, 1];
/** mm; any depth gives the same slope, because the last leg is straight. */
const DEPTH = 100;

function trueUtilisations(hidden: Hidden, state: HiddenState, limits: Limits): TrueUtilisation[] {
  const { layout } = hidden;
  return Object.entries(limits.stations).flatMap(([station, { centre, spread, plumb }]) => {
    const index = layout.elements.findIndex(({ name }) => name === station);
    if (index < 0) return [];
    const places = placesOf(hidden, index);
    const marks = (height: number) =>
      places.map((carriages) => hit(layout, settingAt(hidden, state, carriages), carriages, index, height));
    const here = marks(0);
    const below = plumb === undefined ? [] : marks(DEPTH);
    const measured = (limit: TrueUtilisation['limit'], most: number | undefined, value: () => number) => {
      if (most === undefined) return [];
      const size = value();
      return [{ station, limit, share: size / most, value: size }];
    };
    return [
      ...measured('centre', centre, () => Math.max(...here.map((mark) => distance(mark, CENTRE)))),
      ...measured('spread', spread, () =>
        Math.max(...here.flatMap((one) => here.map((other) => distance(one, other)))),
      ),
      ...measured('plumb', plumb, () => Math.max(...here.map((mark, k) => distance(mark, below[k]))) / DEPTH),
    ];
  });
}

/** The largest; undefined without limits. */
export function worstUtilisation(hidden: Hidden, state: HiddenState, limits: Limits): TrueUtilisation | undefined {
  return trueUtilisations(hidden, state, limits).reduce<TrueUtilisation | undefined>(
    (most, one) => (most === undefined || one.share > most.share ? one : most),
    undefined,
  );
}

const CENTRE = { right: 0, up: 0 };

function placesOf({ layout }: Hidden, index: number): Carriages[] {
  return travelsOf(layout)
    .filter((travel) => travel.index <= index)
    .reduce<Carriages[]>(
      (sofar, { element, shortest, longest }) =>
        ALONG.flatMap((share) => sofar.map((one) => ({ ...one, [element]: shortest + share * (longest - shortest) }))),
      [{}],
    );
}

type Position = Pick<Hit, 'right' | 'up'> | undefined;

/** A beam that does not arrive is infinitely far off. */
function distance(one: Position, other: Position): number {
  return one && other ? Math.sqrt((one.right - other.right) ** 2 + (one.up - other.up) ** 2) : Infinity;
}
