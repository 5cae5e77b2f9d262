/** The verdict on every station of the path, at a state of the log. */
import { lookup, type Reading, type StationReport, type StationStatus } from '../model/index.ts';
import {
  runFilter,
  contradiction,
  doubts,
  isUsed,
  isPlumbValid,
  shapeDoubts,
  plumbFrom,
  freshReadings,
  lastMoved,
  lastReadings,
  type GateFailure,
  type Estimate,
  type Doubts,
  type State,
  type LoggedReading,
} from '../estimate/index.ts';
import { conformance, type Conformance } from './conformance.ts';
import { demandFor, type Demand } from './demand.ts';
import {
  NO_MOVE,
  areOpposite,
  isMark,
  points,
  type Move,
  type Place,
  type Point,
  type Station,
  finished,
} from '../machine/index.ts';
import { slopeOf } from './slope.ts';

/** The verdict on one station: its report, and what the planner needs besides. */
export interface StationVerdict {
  readonly station: Station;
  readonly report: StationReport;
  readonly fresh: readonly LoggedReading[];
  /** Whether its limits need tapes on the bed after a further move. */
  lacksPlumb(move: Move): boolean;
  /** Absent if the station has no limits. */
  readonly demand?: Demand;
  /** The marks that make its older marks stale, although the log mentions no move. */
  readonly contradicted?: GateFailure;
  /** Places whose plain reading exceeds a limit although the model is within it. */
  readonly disputed: readonly Place[];
}

/**
 * The verdicts on all stations, in path order.
 * @param estimate of this state
 */
export function stationVerdicts(state: State, estimate: Estimate): readonly StationVerdict[] {
  return finished(verdictSteps(state, estimate));
}

/** The same, one station a step. */
export function* verdictSteps(
  state: State,
  estimate: Estimate,
): Generator<undefined, readonly StationVerdict[], undefined> {
  // Findings, advice and report need the same ones, one after the other.
  const known = state.cache.latestOf<readonly StationVerdict[]>(state);
  if (known) return known;
  const doubtful = doubts(state);
  const verdicts: StationVerdict[] = [];
  for (const station of estimate.system.stations) {
    verdicts.push(stationVerdict(state, station, estimate, doubtful));
    yield;
  }
  return state.cache.keepLatest(state, verdicts);
}

/** The verdict on one station. */
export function stationVerdict(
  state: State,
  station: Station,
  estimate: Estimate,
  doubtful: Doubts = doubts(state),
): StationVerdict {
  const filtered = state.segment ? runFilter(state.segment) : { contradictions: [], unexplained: [], misread: [] };
  const { contradictions } = filtered;
  const unmoved = freshReadings(state, station);
  const fresh = unmoved.filter((reading) => !contradiction(reading, contradictions) && isUsed(filtered, reading));
  const contradicted = unmoved
    .map((reading) => contradiction(reading, contradictions))
    .find((failure) => failure !== undefined);
  const limits = state.limits && lookup(state.limits.stations, station.name);
  const demand = limits && demandFor(station, limits, fresh);
  const lacksTapes = (move: Move) =>
    lacksPlumb(state, station, move) || isPlumbContradicted(state, station, contradictions);
  const shotAll = areShotAll(station, fresh) && !lacksTapes(NO_MOVE);
  const computed = demand && shotAll ? conformance(demand, fresh, estimate, doubtful.noise) : undefined;
  const isGuessed = computed !== undefined && isGuess(computed, fresh);
  const complete = shotAll && !isGuessed;
  const result = complete ? computed : undefined;
  const last = fresh.length > 0 ? fresh : lastReadings(state, station);
  const slope = slopeOf(station, fresh, estimate);
  const staleSince =
    last.length > 0 && fresh.length === 0 ? (contradicted?.moment ?? lastMoved(state, station)).cell : undefined;
  const status = demand
    ? withDoubts(statusOf(staleSince, complete, fresh, result, state.limits?.confidence), station, doubtful, fresh)
    : ({ state: 'unlimited', ...(staleSince !== undefined && { staleSince }) } as const);
  const report: StationReport = {
    name: station.name,
    frame: frameOf(station),
    aperture: station.element.aperture,
    carriages: carriagesOf(station),
    ...status,
    requirements: result ? result.requirements : demand ? unmeasured(demand) : [],
    ...(slope && { slope }),
    readings: last.map(toReading),
  };
  return {
    station,
    report,
    fresh,
    lacksPlumb: (move) => isGuessed || lacksTapes(move),
    ...(demand && { demand }),
    ...(contradicted && { contradicted }),
    disputed: result?.contradicted ?? [],
  };
}

/** No station is within after a part that may be loose, with an unexplained mark, or with marks of a doubtful shape. */
function withDoubts(
  status: StationStatus,
  { index }: Station,
  { unexplained, scattering }: Doubts,
  fresh: readonly Reading[],
): StationStatus {
  const isDoubtful =
    unexplained.some(({ readings }) => readings[0]!.station === index) ||
    (scattering !== undefined && scattering.discrepancy.earlier.station <= index) ||
    shapeDoubts(fresh).length > 0;
  return status.state === 'within' && isDoubtful ? { ...status, state: 'borderline' } : status;
}

/** The viewer's frame of a station, for a report. */
export function frameOf({ runs, viewer, units }: Station): StationReport['frame'] {
  return { runs, right: viewer.rightWord, up: viewer.upWord, units };
}

/** The carriages of a station, for a report. */
export function carriagesOf({ travels, units }: Pick<Station, 'travels' | 'units'>): StationReport['carriages'] {
  return travels.map(({ element, rides, from, runs, stops, shortest, longest }) => ({
    element,
    rides,
    from,
    runs,
    units,
    legs: Object.fromEntries(stops),
    shortest,
    longest,
  }));
}

/** Removes what a reader of the report does not need. */
export function toReading({ order: _, station: __, scatter: ___, ...reading }: LoggedReading): Reading {
  return reading;
}

/** Whether two opposite corners were read in both coordinates, and plumb is known if it has a limit. */
export function isComplete(state: State, station: Station, fresh: readonly LoggedReading[]): boolean {
  return areShotAll(station, fresh) && !lacksPlumb(state, station);
}

function areShotAll(station: Station, fresh: readonly LoggedReading[]): boolean {
  return areOpposite(
    station,
    shotPoints(fresh).map((point) => point.carriages),
  );
}

function isPlumbContradicted(
  { plumbed }: State,
  { name, index }: Station,
  contradictions: readonly GateFailure[],
): boolean {
  const measured = plumbed.get(name);
  return (
    measured !== undefined && contradiction({ station: index, order: measured.order }, contradictions) !== undefined
  );
}

function lacksPlumb({ limits, plumbed, system }: State, { name }: Station, { turns }: Move = NO_MOVE): boolean {
  const max = limits && lookup(limits.stations, name)?.plumb;
  return max !== undefined && !(system && isPlumbValid(system, plumbed.get(name), max, turns));
}

/** Fraction of the limit: a predicted plumb with a larger uncertainty is only a guess. */
const GUESSED = 0.5;

function isGuess({ requirements }: Conformance, fresh: readonly LoggedReading[]): boolean {
  const plumb = requirements.find(({ limit }) => limit === 'plumb');
  return plumb !== undefined && plumbFrom(fresh) === undefined && (plumb.u ?? Infinity) > GUESSED * plumb.max;
}

/** Points that were shot; a tape that the beam missed was shot too. */
export function shotPoints(fresh: readonly LoggedReading[]): Point[] {
  return points(fresh).filter((point) => isMark(point) || point.none);
}

function statusOf(
  staleSince: number | undefined,
  complete: boolean,
  fresh: readonly LoggedReading[],
  result: Conformance | undefined,
  confidence = 1,
): StationStatus {
  if (staleSince !== undefined) return { state: 'stale', staleSince };
  if (fresh.length === 0) return { state: 'unread' };
  if (!complete) return { state: 'incomplete' };
  // A beam that misses the tape by the model is not within.
  if (!result) return { state: 'outside' };
  const { probability } = result;
  if (points(fresh).some((point) => point.none)) return { state: 'outside', probability };
  if (probability >= confidence) return { state: 'within', probability };
  return { state: result.inside ? 'borderline' : 'outside', probability };
}

function unmeasured({ limits }: Demand) {
  return (['centre', 'spread', 'plumb'] as const).flatMap((limit) => {
    const max = limits[limit];
    return max === undefined ? [] : [{ limit, max }];
  });
}
