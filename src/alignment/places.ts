/**
 * Where tape has to be shot: every place the carriages can take that a requirement is about, and the few that
 * must be read for a station to count as fresh.
 */
import { lookup } from '../model/index.ts';
import { carriagesAt, type Station, type Travel } from './system.ts';

/** One setting of the carriages, as the user names it. */
export interface Place {
  /** The station's own stop, or `here`. */
  readonly at: string | number;
  /** Where the other carriages stand, all of them. */
  readonly with: Readonly<Record<string, string | number>>;
  readonly carriages: Readonly<Record<string, number>>;
}

/** Corners of more carriages than this are not all asked for: no machine has so many, but a file may. */
const MOST_OTHERS = 2;

/** Every named stop of the station itself, with the other carriages at each of their corners; nearest first. */
export function placesOf(station: Station): readonly Place[] {
  const others = station.travels.filter((travel) => travel !== station.own).slice(-MOST_OTHERS);
  const corners = others.reduce<Record<string, string>[]>(
    (sofar, travel) => ends(travel).flatMap((name) => sofar.map((corner) => ({ ...corner, [travel.element]: name }))),
    [{}],
  );
  const stops = station.own ? inOrder(station.own) : ['here'];
  return corners.flatMap((corner) => stops.map((stop) => placeAt(station, stop, corner)));
}

/** Names of the shortest and the longest stop; one name where there is but one stop. */
function ends(travel: Travel): string[] {
  const names = inOrder(travel);
  return names.length > 1 ? [names[0]!, names.at(-1)!] : names;
}

function inOrder(travel: Travel): string[] {
  return [...travel.stops].sort((one, other) => one[1] - other[1]).map(([name]) => name);
}

function placeAt(station: Station, at: string, corner: Readonly<Record<string, string>>): Place {
  const legs = station.travels.map((travel): [string, number] => [travel.element, travel.stops.get(travel === station.own ? at : lookup(corner, travel.element)!) ?? travel.shortest]);
  const carriages = carriagesAt(station, Object.fromEntries(legs));
  return { at, with: othersAt(station, carriages), carriages };
}

/** The other carriages by the names of their stops, or by their legs in mm where they stand at none. */
export function othersAt(station: Station, carriages: Readonly<Record<string, number>>): Readonly<Record<string, string | number>> {
  const others = station.travels.filter((travel) => travel !== station.own);
  return Object.fromEntries(others.map((travel) => [travel.element, stopAt(travel, carriages[travel.element]!)]));
}

/** A stop by its name, or its leg in mm where the carriage stands at none. */
export function stopAt(travel: Travel, leg: number): string | number {
  return [...travel.stops].find(([, stop]) => stop === leg)?.[0] ?? leg;
}

/**
 * The places that make a station fresh: its one place; its shortest and longest stop; where other carriages move
 * it too, two opposite corners.
 */
export function placesNeeded(station: Station): readonly Place[] {
  const all = placesOf(station);
  if (station.travels.length === 0) return all;
  const atEnds = (end: 'shortest' | 'longest') => all.find((place) => station.travels.every((travel) => place.carriages[travel.element] === travel[end]));
  return [atEnds('shortest'), atEnds('longest')].flatMap((place) => place ?? []);
}

/** Whether these settings hold two opposite corners (or the one place there is). */
export function areOpposite(station: Station, settings: readonly Readonly<Record<string, number>>[]): boolean {
  if (station.travels.length === 0) return settings.length > 0;
  return settings.some((one) => settings.some((other) => station.travels.every((travel) => {
    const [a, b] = [one[travel.element], other[travel.element]];
    return (a === travel.shortest && b === travel.longest) || (a === travel.longest && b === travel.shortest);
  })));
}

export function sameCarriages(one: Readonly<Record<string, number>>, other: Readonly<Record<string, number>>): boolean {
  return Object.keys(one).length === Object.keys(other).length && Object.entries(one).every(([name, leg]) => lookup(other, name) === leg);
}

/** A place as asked of the estimate. */
export function queryAt(station: Station, carriages: Readonly<Record<string, number>>, height = 0) {
  return { station: station.index, carriages, height };
}
