/**
 * The positions of the carriages for a shot. One that the shot does not name was at its nearest stop, the shortest leg.
 */
import { child, lookup, pathTo, type Machine, type Path, type PathElement } from '../../model/index.ts';
import { elementNamed, HERE, unknown } from '../names.ts';
import type { Cell } from './kind.ts';

/** A stop's name, or a leg in mm. */
export type Place = string | number;

/** The leg of every element with stops, mm; a carriage at an unknown place is reported. */
// biome-ignore lint/complexity/useMaxParams: a place in a cell is four values; all three functions share them
export function carriages(
  machine: Machine,
  station: PathElement,
  at: Place,
  others: Readonly<Record<string, Place>>,
  path: Path,
  cell: Cell,
): Record<string, number> {
  const legs: Record<string, number> = {};
  for (const element of machine.path) {
    if (element.stops === undefined) continue;
    const place = element === station ? at : lookup(others, element.name);
    legs[element.name] = (place === undefined ? undefined : legAt(element, place)) ?? nearestStop(element.stops);
  }
  for (const [name, place] of Object.entries(others))
    checkOther(machine, station, name, place, child(child(path, 'with'), name), cell);
  return legs;
}

/** The position of the station's own carriage; undefined if there is no such place, which has been reported. */
// biome-ignore lint/complexity/useMaxParams: a place in a cell is four values; all three functions share them
export function ownPlace(
  machine: Machine,
  station: PathElement,
  at: Place | undefined,
  path: Path,
  atKey: boolean,
  cell: Cell,
): Place | undefined {
  if (station.stops === undefined) {
    if (at === undefined || at === HERE) return HERE;
    if (typeof at === 'string') unknown(cell, path, `stop on ${station.name}`, at, machine, [HERE], { atKey });
    else
      cell.report(
        path,
        'cell.together',
        { place: station.name, reason: 'it has one leg, and its only stop is `here`' },
        { atKey },
      );
    return undefined;
  }
  if (at === undefined) {
    cell.report(path, 'cell.missing', { key: 'at', place: `a shot on ${station.name}, which has stops` });
    return undefined;
  }
  if (legAt(station, at) !== undefined) return at;
  unknown(cell, path, `stop on ${station.name}`, String(at), machine, Object.keys(station.stops), { atKey });
  return undefined;
}

/** Checks the carriages' places for other measurements; an unknown place is reported. */
export function checkPlaces(machine: Machine, places: Readonly<Record<string, Place>>, cell: Cell): void {
  for (const [name, place] of Object.entries(places))
    checkOther(machine, undefined, name, place, pathTo('with', name), cell);
}

/** @param station whose own place is given elsewhere, if any */
// biome-ignore lint/complexity/useMaxParams: a place in a cell is four values; all three functions share them
function checkOther(
  machine: Machine,
  station: PathElement | undefined,
  name: string,
  place: Place,
  path: Path,
  cell: Cell,
): void {
  const element = elementNamed(machine, name, cell, path, { atKey: true });
  if (element === undefined) return;
  const reason =
    element === station
      ? 'write the place of this station as `at`'
      : element.stops === undefined
        ? 'it has no stops'
        : undefined;
  if (reason !== undefined) cell.report(path, 'cell.together', { place: name, reason }, { atKey: true });
  else if (legAt(element, place) === undefined)
    unknown(cell, path, `stop on ${name}`, String(place), machine, Object.keys(element.stops!));
}

function legAt({ stops = {} }: PathElement, place: Place): number | undefined {
  return typeof place === 'number' ? place : lookup(stops, place)?.value;
}

function nearestStop(stops: NonNullable<PathElement['stops']>): number {
  return Math.min(...Object.values(stops).map(({ value }) => value));
}
