/**
 * The effect of an adjustment on the marks: predicted by the estimate before it, and measured by the marks that follow.
 * It is given at the next station that is shot after the moved part, at its longest leg there.
 */
import type { AdjustEntry, Axes, LogEntry, MarksEntry, StationReport } from '../model/index.ts';
import { estimate, predict, lastReadings, type State } from '../estimate/index.ts';
import {
  NO_MOVE,
  TUBE,
  othersAt,
  placesNeeded,
  queryAt,
  sameCarriages,
  stopAt,
  isMark,
  points,
  type Station,
  type System,
} from '../machine/index.ts';
import { carriagesOf, frameOf } from '../verdict/index.ts';
import { isKnown } from '../advice/index.ts';

/** The change of a mark at one place, mm, viewer's frame. */
export interface TurnEffect {
  readonly station: string;
  readonly at: string | number;
  readonly with: Readonly<Record<string, string | number>>;
  readonly frame: StationReport['frame'];
  readonly carriages: StationReport['carriages'];
  /** Screws of this cell with an unknown effect: nothing is predicted of them. */
  readonly unknown: readonly string[];
  /** Predicted effect of this cell alone. */
  readonly should: Axes;
  /**
   * At the last adjustment before the marks: the predicted and the measured effect of all adjustments since the marks
   * before.
   */
  readonly round?: { readonly should: Axes; readonly did: Axes };
}

export function turnEffect(
  entries: readonly LogEntry[],
  index: number,
  stateAt: (count: number) => State,
): TurnEffect | undefined {
  const entry = entries[index]?.entry;
  if (entry?.kind !== 'adjust' || !movesBeam(entry)) return undefined;
  const before = stateAt(index);
  const { system } = before;
  if (!system) return undefined;
  const shot = nextShot(entries, index, entry.part, system);
  const station = shot ? stationNamed(system, shot.entry.station) : behind(system, entry.part);
  if (!station) return undefined;
  const carriages = farthestCarriages(station, shot?.entry);
  const should = difference(before, stateAt(index + 1), station, carriages);
  if (!should) return undefined;
  const isLast =
    shot &&
    !entries.slice(index + 1, shot.index).some(({ entry: later }) => later.kind === 'adjust' && movesBeam(later));
  const round = isLast ? roundOf({ entries, index, shot: shot.index, station, carriages }, stateAt) : undefined;
  const { own } = station;
  return {
    station: station.name,
    at: own ? stopAt(own, carriages[own.element]!) : 'here',
    with: othersAt(station, carriages),
    frame: frameOf(station),
    carriages: carriagesOf(station),
    unknown: unknownIn(entry, before),
    should,
    ...(round && { round }),
  };
}

export function unknownIn({ part, turns }: AdjustEntry, before: State): string[] {
  const estimated = estimate(before);
  return Object.keys(turns).filter((name) =>
    estimated?.system.screws.some((screw) => screw.part === part && screw.screw === name && !isKnown(estimated, screw)),
  );
}

export function movesBeam({ turns, shift }: AdjustEntry): boolean {
  return shift !== undefined || Object.keys(turns).length > 0;
}

export function stationNamed(system: System, name: string): Station | undefined {
  return system.stations.find((station) => station.name === name);
}

/** Index of the moved part: that of the tube is before the first. */
function placeInPath(system: System, part: string): number {
  return part === TUBE ? -1 : (stationNamed(system, part)?.index ?? Infinity);
}

export function behind(system: System, part: string): Station | undefined {
  return system.stations[placeInPath(system, part) + 1];
}

interface Shot {
  readonly index: number;
  readonly entry: MarksEntry;
}

/** The next marks after the part, unless an entry in between makes a comparison impossible. */
export function nextShot(entries: readonly LogEntry[], index: number, part: string, system: System): Shot | undefined {
  const from = placeInPath(system, part);
  for (let k = index + 1; k < entries.length; k++) {
    const { entry } = entries[k]!;
    if (isBreak(entry.kind)) return undefined;
    if (entry.kind === 'marks' && (stationNamed(system, entry.station)?.index ?? -Infinity) > from)
      return { index: k, entry };
  }
  return undefined;
}

export function isBreak(kind: LogEntry['entry']['kind']): boolean {
  return kind === 'session' || kind === 'release' || kind === 'event' || kind === 'machine' || kind === 'unread';
}

function farthestCarriages(station: Station, shot: MarksEntry | undefined): Readonly<Record<string, number>> {
  const { own } = station;
  const shots =
    shot?.shots.filter(({ height }) => height === 0).map(({ carriages }) => movingCarriages(station, carriages)) ?? [];
  const settings = shots.length > 0 ? shots : placesNeeded(station).map(({ carriages }) => carriages);
  return settings.reduce((most, one) => (own && one[own.element]! > most[own.element]! ? one : most));
}

/** Only the carriages that affect the mark here. */
export function movingCarriages(
  { travels }: Station,
  carriages: Readonly<Record<string, number>>,
): Readonly<Record<string, number>> {
  return Object.fromEntries(travels.map(({ element, shortest }) => [element, carriages[element] ?? shortest]));
}

function difference(
  before: State,
  after: State,
  station: Station,
  carriages: Readonly<Record<string, number>>,
): Axes | undefined {
  const [then, now] = [before, after].map((state) => {
    const estimated = estimate(state);
    return estimated && predict(estimated, [queryAt(station, carriages)], NO_MOVE)?.mean;
  });
  return then && now && { right: now[0]! - then[0]!, up: now[1]! - then[1]! };
}

interface Round {
  readonly entries: readonly LogEntry[];
  readonly index: number;
  /** Index of the marks that end it. */
  readonly shot: number;
  readonly station: Station;
  readonly carriages: Readonly<Record<string, number>>;
}

/** From the marks of this station before the adjustment to those after it. */
function roundOf(
  { entries, index, shot, station, carriages }: Round,
  stateAt: (count: number) => State,
): TurnEffect['round'] {
  let from = index;
  while (from > 0 && !isBreak(entries[from - 1]!.entry.kind) && !isMarksOf(entries[from - 1]!, station)) from--;
  if (from === 0 || !isMarksOf(entries[from - 1]!, station)) return undefined;
  const [then, now] = [stateAt(from), stateAt(shot + 1)].map((state) => markAt(state, station, carriages));
  const should = difference(stateAt(from), stateAt(shot), station, carriages);
  return then && now && should && { should, did: { right: now.right - then.right, up: now.up - then.up } };
}

function isMarksOf({ entry }: LogEntry, { name }: Station): boolean {
  return entry.kind === 'marks' && entry.station === name;
}

function markAt(state: State, station: Station, carriages: Readonly<Record<string, number>>): Axes | undefined {
  return points(lastReadings(state, station))
    .filter(isMark)
    .find((mark) => sameCarriages(mark.carriages, carriages));
}
