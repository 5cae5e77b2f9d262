/** The beam through the whole machine as estimated, and as predicted after the advised move. */
import type {
  Axes,
  Displacement,
  PathCarriage,
  PathClearance,
  PathFigure,
  PathPart,
  StationReport,
  Step,
} from '../model/index.ts';
import { add, dot, plate, position, scale, subtract, viewer, type Vector } from '../optics/index.ts';
import {
  queryAt,
  stopAt,
  moveOfStep,
  carriagesAt,
  marksAt,
  type Station,
  type System,
  type Travel,
} from '../machine/index.ts';
import { propagate, type Distribution, type Estimate } from '../estimate/index.ts';
import { carriagesOf } from '../verdict/index.ts';
import { placeInWords } from '../words/index.ts';

export interface BeamPathOptions {
  readonly reports: readonly StationReport[];
  /** The advised steps. */
  readonly steps: readonly Step[];
  /** Leg of each carriage by its element, mm; without an entry it is at its longest, where most can be seen. */
  readonly legs: Readonly<Record<string, number>>;
  readonly widthOn: WidthOn;
}

/**
 * 1/e² diameter of the beam on a station's tape, mm, with carriages at these legs; undefined if a value of the machine
 * is missing.
 */
export type WidthOn = (station: string, carriages: Readonly<Record<string, number>>) => number | undefined;

export function beamPath(
  { system, distribution }: Estimate,
  { reports, steps, legs, widthOn }: BeamPathOptions,
): Omit<PathFigure, 'kind'> {
  const moves = steps.flatMap((step) => (step.kind === 'lock' ? [] : (moveOfStep(system, step) ?? [])));
  const then = moves.length === 0 ? undefined : moves.reduce(propagate, distribution);
  const carriages = carriageLegs(system, legs);
  const { along, right, up } = viewer(system.layout.fires);
  return {
    machine: system.machine.name,
    units: system.machine.units,
    place: placeInWords(
      carriagesOf({ travels: system.carriages, units: system.machine.units }),
      'here',
      Object.fromEntries(
        system.carriages.map((travel) => [travel.element, stopAt(travel, carriages[travel.element]!)]),
      ),
    ),
    isMoved: then !== undefined,
    isWidthKnown: system.stations.every(
      (station) => widthOn(station.name, carriagesAt(station, carriages)) !== undefined,
    ),
    tube: { fires: along, off: add(scale(right, distribution.values[0]!), scale(up, distribution.values[1]!)) },
    carriages: system.carriages.map((travel) => carriageOf(system, travel, carriages)),
    parts: system.stations.map((station, k) =>
      partOf(system, station, reports[k]!, { distribution, then, carriages, widthOn }),
    ),
  };
}

/** The leg of every carriage, within its travel. */
function carriageLegs(system: System, legs: BeamPathOptions['legs']): Readonly<Record<string, number>> {
  return Object.fromEntries(
    system.carriages.map(({ element, shortest, longest }) => [
      element,
      Math.min(longest, Math.max(shortest, Object.hasOwn(legs, element) ? legs[element]! : longest)),
    ]),
  );
}

function carriageOf(
  system: System,
  { element, rides, index, shortest, longest }: Travel,
  carriages: Readonly<Record<string, number>>,
): PathCarriage {
  const at = (leg: number) => position(system.layout, { ...carriages, [element]: leg })[index]!.centre;
  return { element, rides, leg: carriages[element]!, shortest, longest, ends: [at(shortest), at(longest)] };
}

interface Beams {
  readonly distribution: Distribution;
  readonly then: Distribution | undefined;
  readonly carriages: Readonly<Record<string, number>>;
  readonly widthOn: WidthOn;
}

function partOf(
  system: System,
  station: Station,
  { frame, state, readings, staleSince }: StationReport,
  beams: Beams,
): PathPart {
  const { distribution, then, carriages } = beams;
  const {
    name,
    index,
    element: { kind, aperture },
  } = station;
  const here = carriagesAt(station, carriages);
  const mark = markOf(distribution, station, here);
  const later = then && markOf(then, station, here);
  const face = plate(system.layout, index);
  const { right, up } = kind === 'mirror' ? face : station.viewer;
  return {
    name,
    kind,
    aperture,
    frame,
    isMeasured: readings.length > 0 && staleSince === undefined && state !== 'incomplete',
    at: position(system.layout, carriages)[index]!.centre,
    face: [right, up],
    ...(mark && { mark, met: onFace(system, station, mark) }),
    ...(later && { then: later, thenMet: onFace(system, station, later) }),
    clearance: clearanceOf(station, beams),
  };
}

/** The mark with the lens fitted, as the machine runs; tapes are shot with it out. */
function markOf(
  distribution: Distribution,
  station: Station,
  carriages: Readonly<Record<string, number>>,
): Axes | undefined {
  const lens = lensBefore(distribution.system, station, carriages);
  const [mark, met] = [station, ...(lens ? [lens.station] : [])].map((one) =>
    marksAt(distribution, [queryAt(one, carriages)]),
  );
  if (!mark || !lens) return mark && { right: mark[0]!, up: mark[1]! };
  return met && { right: mark[0]! - lens.fraction * met[0]!, up: mark[1]! - lens.fraction * met[1]! };
}

/**
 * The lens before a station, if no mirror is in between, and the fraction of the offset at the lens by which it
 * deflects the beam here.
 */
function lensBefore(
  system: System,
  station: Station,
  carriages: Readonly<Record<string, number>>,
): { readonly station: Station; readonly fraction: number } | undefined {
  const lens = system.stations[station.lensBefore ?? station.index]!;
  if (lens === station || system.mirrors.some((mirror) => mirror > lens.index && mirror < station.index))
    return undefined;
  const places = position(system.layout, carriages);
  const distance = dot(subtract(places[station.index]!.centre, places[lens.index]!.centre), station.viewer.along);
  return { station: lens, fraction: distance / lens.element.focal!.value };
}

/** An off-centre beam meets a tilted face earlier or later: n·(e + t·d) = 0. */
function onFace(
  system: System,
  { index, element: { kind }, viewer: view }: Station,
  { right, up }: Axes,
): Displacement {
  const beside: Vector = add(scale(view.right, right), scale(view.up, up));
  if (kind !== 'mirror') return beside;
  const { normal } = plate(system.layout, index);
  return add(beside, scale(view.along, -dot(normal, beside) / dot(normal, view.along)));
}

/** Maximum number of other carriages whose corners are evaluated: no machine has more, but a file may. */
const MOST_OTHERS = 2;

/** Number of points of a travel: a straight beam needs no more. */
const POINTS = 9;

function clearanceOf(station: Station, { distribution, then, widthOn }: Omit<Beams, 'carriages'>): PathClearance {
  const last = station.travels.at(-1);
  const others = station.travels
    .slice(0, -1)
    .filter(({ shortest, longest }) => shortest < longest)
    .slice(-MOST_OTHERS);
  const corners = others.reduce<Readonly<Record<string, number>>[]>(
    (so, { element, shortest, longest }) =>
      so.flatMap((carriages) => [shortest, longest].map((leg) => ({ ...carriages, [element]: leg }))),
    [{}],
  );
  const legs = last
    ? Array.from({ length: POINTS }, (_, k) => last.shortest + (k / (POINTS - 1)) * (last.longest - last.shortest))
    : [0];
  const worst = (distribution: Distribution, leg: number) =>
    least(
      corners.map((corner) =>
        clearanceAt(
          distribution,
          station,
          carriagesAt(station, last ? { ...corner, [last.element]: leg } : {}),
          widthOn,
        ),
      ),
    );
  return {
    ...(last && { rides: last.rides }),
    points: legs.map((leg) => {
      const now = worst(distribution, leg);
      const later = then && worst(then, leg);
      return { leg, ...(now !== undefined && { now }), ...(later !== undefined && { then: later }) };
    }),
  };
}

/** The least clearance; undefined if the beam misses at one of the places. */
function least(values: readonly (number | undefined)[]): number | undefined {
  return values.includes(undefined) ? undefined : Math.min(...(values as readonly number[]));
}

function clearanceAt(
  distribution: Distribution,
  station: Station,
  carriages: Readonly<Record<string, number>>,
  widthOn: WidthOn,
): number | undefined {
  const mark = markOf(distribution, station, carriages);
  return (
    mark && station.element.aperture / 2 - Math.hypot(mark.right, mark.up) - (widthOn(station.name, carriages) ?? 0) / 2
  );
}
