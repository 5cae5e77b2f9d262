/** Amounts, places and directions in words, the same in messages and in cells. */
import { nearestDirection, opposite } from '../optics/index.ts';
import {
  lengthsIn,
  lookup,
  nameInCell,
  type Carriage,
  type Direction,
  type Displacement,
  type StationReport,
  type Units,
} from '../model/index.ts';

/** `1.5 mm up`, `1 mm left 0.25 mm down`, `1/16 in up`. */
export function shiftInWords(by: Displacement, units: Units): string {
  const { given } = lengthsIn(units);
  const parts = by.map((amount, axis): [Direction, number] => [along(axis, amount), Math.abs(amount)]);
  return parts
    .filter(([, amount]) => amount > 0)
    .map(([direction, amount]) => `${given(amount)} ${direction}`)
    .join(' ');
}

function along(axis: number, amount: number): Direction {
  const direction = nearestDirection([axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0]);
  return amount < 0 ? opposite(direction) : direction;
}

/** A list in a sentence: `M1`, `M1 and M2`, `M1, M2 and lens`. */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** A user's text as a list item: quoted if YAML might read it as something else. */
export function textInCell(text: string): string {
  return /^\p{L}[\p{L}\p{N} .()/'-]*$/u.test(text) && !/ $/.test(text) ? nameInCell(text) : JSON.stringify(text);
}

/** A user's text on one line of at most 40 characters. */
export function shortened(text: string): string {
  const line = text.trim().replace(/\s+/g, ' ');
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
}

/**
 * `gantry far from M1 (front), head near M2 (left)`, `gantry at 300 mm`: the position of every carriage that moves a
 * tape, by its name; empty for a tape that none moves.
 *
 * @param carriages the last one is the tape's own, if `at` is one of its stops
 */
export function placeInWords(
  carriages: StationReport['carriages'],
  at: string | number,
  others: Readonly<Record<string, string | number>> = {},
): string {
  const own = at === 'here' ? undefined : carriages.at(-1)?.element;
  return carriages
    .flatMap((carriage) => {
      const stop = carriage.element === own ? at : lookup(others, carriage.element);
      return stop === undefined ? [] : [`${carriage.rides} ${stopInWords(carriage, stop)}`];
    })
    .join(', ');
}

/** The same for a small screen: `gantry near M1 (rear), head far (left)`. */
export function placeInBrief(...place: Parameters<typeof placeInWords>): string {
  return placeInWords(...place).replaceAll(/ far from [^,()]+ \(/g, ' far (');
}

/**
 * ` (gantry far from M1, front; head near M2, left)`: a place in brackets, its own brackets replaced; empty for no
 * place.
 */
export function bracketed(place: string): string {
  return place === '' ? '' : ` (${place.replaceAll('), ', '; ').replaceAll(' (', ', ').replaceAll(')', '')})`;
}

/** The short form, in the words of the cell: `far (front)`, `far (right), M2 near (rear)`; empty without carriages. */
export function shortPlace(
  carriages: StationReport['carriages'],
  at: string | number,
  others: Readonly<Record<string, string | number>> = {},
): string {
  const own = carriages.at(-1);
  const otherStops = Object.entries(others).flatMap(([name, stop]) => {
    const carriage = carriages.find(({ element }) => element === name);
    return carriage ? [`${name} ${shortStop(carriage, stop)}`] : [];
  });
  return [...(at === 'here' || !own ? [] : [shortStop(own, at)]), ...otherStops].join(', ');
}

/**
 * The place of a tape as it is named in a list, and the machine's end if it has one: `gantry near` and `rear`; `head
 * far, gantry near`; `gantry at 300 mm`. The tape's own carriage is first. Empty for a tape that no carriage moves.
 */
export function placeName(
  carriages: StationReport['carriages'],
  at: string | number,
  others: Readonly<Record<string, string | number>> = {},
): { readonly name: string; readonly end?: string } {
  const own = at === 'here' ? undefined : carriages.at(-1)?.element;
  const stops = carriages.toReversed().flatMap((carriage) => {
    const stop = carriage.element === own ? at : lookup(others, carriage.element);
    return stop === undefined ? [] : [{ carriage, stop, end: endOf(carriage, stop) }];
  });
  const end = stops.length === 1 ? stops[0]!.end : undefined;
  return {
    name: stops
      .map(({ carriage, stop, end }) => `${carriage.rides} ${end === undefined ? placed(carriage, stop) : stop}`)
      .join(', '),
    ...(end !== undefined && { end }),
  };
}

/** `near M1 (rear)`, `far from the tube (left)`, `at 300 mm`; a user-defined name is not changed. */
export function stopInWords(carriage: Carriage, stop: string | number): string {
  const end = endOf(carriage, stop);
  return end === undefined
    ? placed(carriage, stop)
    : `${stop === 'near' ? 'near' : 'far from'} ${carriage.from} (${end})`;
}

function shortStop(carriage: Carriage, stop: string | number): string {
  const end = endOf(carriage, stop);
  return end === undefined ? placed(carriage, stop) : `${stop} (${end})`;
}

/** A stop whose name contradicts its leg is given by its leg. */
function placed({ legs, from, units }: Carriage, stop: string | number): string {
  const { given } = lengthsIn(units);
  if (typeof stop === 'number') return `at ${given(stop)}`;
  const leg = isEnd(stop) ? lookup(legs, stop) : undefined;
  return leg === undefined ? stop : `“${stop}”, ${given(leg)} from ${from}`;
}

/**
 * The machine's end at which a stop called `near` or `far` is; undefined for other names, and if the legs contradict
 * it.
 */
function endOf({ legs, shortest, longest, runs }: Carriage, stop: string | number): string | undefined {
  if (!isEnd(stop)) return undefined;
  const leg = lookup(legs, stop);
  const middle = (shortest + longest) / 2;
  if (leg === undefined || (stop === 'near' ? leg > middle : leg < middle)) return undefined;
  return END[stop === 'near' ? opposite(runs) : runs];
}

function isEnd(stop: string | number): stop is 'near' | 'far' {
  return stop === 'near' || stop === 'far';
}

const END: Readonly<Record<Direction, string>> = {
  left: 'left',
  right: 'right',
  front: 'front',
  rear: 'rear',
  up: 'top',
  down: 'bottom',
};
