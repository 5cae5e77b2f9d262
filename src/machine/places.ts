/**
 * Places where tape is shot: every setting of the carriages that a limit applies to, and the few that must be read for
 * a station to be complete.
 */
import { lookup, type ShotRequest, type Units } from '../model/index.ts';
import { carriagesAt, type Station, type Travel } from './system.ts';

/** One setting of the carriages, by the names of the stops. */
export interface Place {
  /** The station's own stop, or `here`. */
  readonly at: string | number;
  /** The stops of all other carriages. */
  readonly with: Readonly<Record<string, string | number>>;
  readonly carriages: Readonly<Record<string, number>>;
}

/** Maximum number of other carriages whose corners are listed: no machine has more, but a file may. */
const MOST_OTHERS = 2;

/** mm: a longer travel can exceed its limits between its ends by bowing. */
const LONG_TRAVEL = 200;

/**
 * Where limits apply: every named stop of the station with the other carriages at each of their corners, nearest first;
 * then the middle of each long travel, with the others at their nearest.
 */
export function placesOf(station: Station): readonly Place[] {
  return [...stopsAtCorners(station), ...station.travels.flatMap((travel) => middleOf(station, travel) ?? [])];
}

/** Rounding of the middle of a travel, as a fraction of a unit, mm: a millimetre, half an inch. */
const ROUND: Readonly<Record<Units, { readonly parts: number; readonly unit: number }>> = {
  mm: { parts: 1, unit: 1 },
  in: { parts: 2, unit: 25.4 },
};

function rounded(leg: number, units: Units): number {
  const { parts, unit } = ROUND[units];
  return (Math.round((leg / unit) * parts) / parts) * unit;
}

/** Undefined if a named stop is near enough to the middle. */
function middleOf(station: Station, travel: Travel): Place | undefined {
  const { shortest, longest, stops, element } = travel;
  if (longest - shortest < LONG_TRAVEL) return undefined;
  const middle = rounded((shortest + longest) / 2, station.units);
  if ([...stops.values()].some((leg) => Math.abs(leg - middle) <= (longest - shortest) / NEAR_MIDDLE)) return undefined;
  const carriages = carriagesAt(station, { [element]: middle });
  return {
    at: station.own ? stopAt(station.own, carriages[station.own.element]!) : 'here',
    with: othersAt(station, carriages),
    carriages,
  };
}

/** Within an eighth of the travel from the middle, a parabolic bow is within a sixteenth of its maximum. */
const NEAR_MIDDLE = 8;

function stopsAtCorners(station: Station): readonly Place[] {
  const others = station.travels.filter((travel) => travel !== station.own).slice(-MOST_OTHERS);
  const corners = others.reduce<Record<string, string>[]>(
    (sofar, travel) => ends(travel).flatMap((name) => sofar.map((corner) => ({ ...corner, [travel.element]: name }))),
    [{}],
  );
  const stops = station.own ? inOrder(station.own) : ['here'];
  return corners.flatMap((corner) => stops.map((stop) => placeAt(station, stop, corner)));
}

/** Names of the shortest and the longest stop; one name if there is only one stop. */
function ends(travel: Travel): string[] {
  const names = inOrder(travel);
  return names.length > 1 ? [names[0]!, names.at(-1)!] : names;
}

function inOrder(travel: Travel): string[] {
  return [...travel.stops].sort((one, other) => one[1] - other[1]).map(([name]) => name);
}

function placeAt(station: Station, at: string, corner: Readonly<Record<string, string>>): Place {
  const legs = station.travels.map((travel): [string, number] => [
    travel.element,
    travel.stops.get(travel === station.own ? at : lookup(corner, travel.element)!) ?? travel.shortest,
  ]);
  const carriages = carriagesAt(station, Object.fromEntries(legs));
  return { at, with: othersAt(station, carriages), carriages };
}

/** The other carriages by the names of their stops, or by their legs in mm if they are at none. */
export function othersAt(
  station: Station,
  carriages: Readonly<Record<string, number>>,
): Readonly<Record<string, string | number>> {
  const others = station.travels.filter((travel) => travel !== station.own);
  return Object.fromEntries(others.map((travel) => [travel.element, stopAt(travel, carriages[travel.element]!)]));
}

/** The name of a stop, or the leg in mm if the carriage is at none. */
export function stopAt(travel: Travel, leg: number): string | number {
  return [...travel.stops].find(([, stop]) => stop === leg)?.[0] ?? leg;
}

/**
 * The places that make a station complete: its only place; its shortest and longest stop; two opposite corners if other
 * carriages move it too.
 */
export function placesNeeded(station: Station): readonly Place[] {
  const all = placesOf(station);
  if (station.travels.length === 0) return all;
  const atEnds = (end: 'shortest' | 'longest') =>
    all.find((place) => station.travels.every((travel) => place.carriages[travel.element] === travel[end]));
  return [atEnds('shortest'), atEnds('longest')].flatMap((place) => place ?? []);
}

/** Whether these settings include two opposite corners (or the only place). */
export function areOpposite({ travels }: Station, settings: readonly Readonly<Record<string, number>>[]): boolean {
  if (travels.length === 0) return settings.length > 0;
  const corners = settings.filter((carriages) =>
    travels.every(
      ({ element, shortest, longest }) => carriages[element] === shortest || carriages[element] === longest,
    ),
  );
  return corners.some((carriages) =>
    corners.some((other) =>
      travels.every(({ element, shortest, longest }) => {
        const [a, b] = [carriages[element], other[element]];
        return (a === shortest && b === longest) || (a === longest && b === shortest);
      }),
    ),
  );
}

/** mm: legs closer than this are the same place, since legs are written with few decimals. */
const SAME_PLACE = 0.05;

/** Whether two settings are the same place. */
export function sameCarriages(one: Readonly<Record<string, number>>, other: Readonly<Record<string, number>>): boolean {
  return (
    Object.keys(one).length === Object.keys(other).length &&
    Object.entries(one).every(([name, leg]) => Math.abs((lookup(other, name) ?? NaN) - leg) < SAME_PLACE)
  );
}

/** Places in the order in which they were added, indexed by the leg of one carriage: a rail may have thousands. */
export class PlaceIndex {
  readonly #places: Place[] = [];
  /** By leg, rounded down to whole mm. */
  readonly #byLeg = new Map<number, Place[]>();
  readonly #element: string | undefined;

  constructor(element: string | undefined) {
    this.#element = element;
  }

  get places(): readonly Place[] {
    return this.#places;
  }

  add(place: Place): void {
    const leg = Math.floor(this.#legOf(place.carriages));
    const placesAtLeg = this.#byLeg.get(leg) ?? [];
    placesAtLeg.push(place);
    this.#byLeg.set(leg, placesAtLeg);
    this.#places.push(place);
  }

  /** Places that are the same as this one. */
  at(carriages: Place['carriages']): Place[] {
    const leg = this.#legOf(carriages);
    const [from, to] = [Math.floor(leg - SAME_PLACE), Math.floor(leg + SAME_PLACE)];
    const near = [from, ...(to === from ? [] : [to])].flatMap((mm) => this.#byLeg.get(mm) ?? []);
    return near.filter((place) => sameCarriages(place.carriages, carriages));
  }

  #legOf(carriages: Place['carriages']): number {
    return (this.#element === undefined ? undefined : lookup(carriages, this.#element)) ?? 0;
  }
}

/** The query for a place on the station's tape, or `height` mm below it. */
export function queryAt(station: Station, carriages: Readonly<Record<string, number>>, height = 0) {
  return { station: station.index, carriages, height };
}

/** Leg of every carriage that affects a station’s tape at a shot, mm. */
export function legsOf(station: Station, shot: ShotRequest): Readonly<Record<string, number>> {
  const legs: Record<string, number> = {};
  for (const travel of station.travels) {
    const name = travel === station.own ? shot.at : shot.with?.[travel.element];
    const leg = typeof name === 'number' ? name : travel.stops.get(name ?? '');
    if (leg !== undefined) legs[travel.element] = leg;
  }
  return carriagesAt(station, legs);
}
