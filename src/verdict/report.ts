/** What the log says about every station of the path, now. */
import { lookup, type Reading, type StationReport, type StationState } from '../model/index.ts';
import {
  account,
  contradiction,
  doubts,
  isUsed,
  holds,
  withDoubt,
  plumbOf,
  freshReadings,
  lastMoved,
  lastReadings,
  type Odd,
  type Estimate,
  type Doubts,
  type State,
  type Taken,
} from '../estimate/index.ts';
import { conformance, type Conformance } from './conformance.ts';
import { demand, type Demand } from './demand.ts';
import {
  NO_MOVE,
  areOpposite,
  isMark,
  points,
  type Move,
  type Place,
  type Point,
  type Station,
} from '../machine/index.ts';
import { slopeOf } from './slope.ts';

/** One station as it stands, with what the planner needs besides the report. */
export interface Standing {
  readonly station: Station;
  readonly report: StationReport;
  readonly fresh: readonly Taken[];
  /** Whether tapes on the bed are needed for its limits, after a further move. */
  lacksPlumb(move: Move): boolean;
  /** Absent where the station has no limits. */
  readonly asked?: Demand;
  /** What stands against its older marks, though the log says of nothing that moved. */
  readonly contradicted?: Odd;
  /** Places whose plain reading is over a limit although the model has it within. */
  readonly disputed: readonly Place[];
}

/** Kept of the last state: findings, advice and report ask for it one after the other. */
let latest: { readonly state: State; readonly standings: readonly Standing[] } | undefined;

/** @param estimate of this state */
export function standings(state: State, estimate: Estimate): readonly Standing[] {
  if (latest?.state !== state) {
    const doubtful = doubts(state);
    const all = estimate.system.stations.map((station) => standing(state, station, estimate, doubtful));
    latest = { state, standings: all };
  }
  return latest.standings;
}

export function standing(
  state: State,
  station: Station,
  estimate: Estimate,
  doubtful: Doubts = doubts(state),
): Standing {
  const known = state.chapter ? account(state.chapter) : { odd: [], unexplained: [], misread: [] };
  const { odd } = known;
  const unmoved = freshReadings(state, station);
  const fresh = unmoved.filter((reading) => !contradiction(reading, odd) && isUsed(known, reading));
  const contradicted = unmoved.map((reading) => contradiction(reading, odd)).find((one) => one !== undefined);
  const limits = state.limits && lookup(state.limits.stations, station.name);
  const asked = limits && demand(station, limits, fresh);
  const lacksTapes = (move: Move) => lacksPlumb(state, station, move) || isPlumbContradicted(state, station, odd);
  const shotAll = areShotAll(station, fresh) && !lacksTapes(NO_MOVE);
  const reckoned = asked && shotAll ? conformance(asked, fresh, estimate, doubtful.noise) : undefined;
  const guessed = reckoned !== undefined && isGuess(reckoned, fresh);
  const complete = shotAll && !guessed;
  const found = complete ? reckoned : undefined;
  const last = fresh.length > 0 ? fresh : lastReadings(state, station);
  const slope = slopeOf(station, fresh, estimate);
  const report: StationReport = {
    name: station.name,
    frame: frameOf(station),
    aperture: station.element.aperture,
    carriages: carriagesOf(station),
    state: asked
      ? withDoubt(capped(stateOf(last, complete, fresh, found, state.limits?.confidence), station, doubtful), fresh)
      : 'unlimited',
    ...(found && { probability: found.probability }),
    requirements: found ? found.requirements : asked ? unmeasured(asked) : [],
    ...(slope && { slope }),
    readings: last.map(shown),
    ...(last.length > 0 &&
      fresh.length === 0 && { staleSince: (contradicted?.moment ?? lastMoved(state, station)).cell }),
  };
  return {
    station,
    report,
    fresh,
    lacksPlumb: (move) => guessed || lacksTapes(move),
    ...(asked && { asked }),
    ...(contradicted && { contradicted }),
    disputed: found?.contradicted ?? [],
  };
}

/** Nothing is within that a loose part may move, or where a mark is not explained. */
function capped(state: StationState, { index }: Station, { unexplained, scattering }: Doubts): StationState {
  const isDoubtful =
    unexplained.some(({ readings }) => readings[0]!.station === index) ||
    (scattering && scattering.apart.one.station <= index);
  return state === 'within' && isDoubtful ? 'borderline' : state;
}

export function frameOf({ runs, viewer, units }: Station): StationReport['frame'] {
  return { runs, right: viewer.rightWord, up: viewer.upWord, units };
}

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

/** Only what a reader of the report needs; what had been moved by then is the fold's own. */
export function shown({ order: _, station: __, scatter: ___, ...reading }: Taken): Reading {
  return reading;
}

/** Marked at the places that 2 opposite corners need, both parts, and plumb known where it is asked. */
export function isComplete(state: State, station: Station, fresh: readonly Taken[]): boolean {
  return areShotAll(station, fresh) && !lacksPlumb(state, station);
}

function areShotAll(station: Station, fresh: readonly Taken[]): boolean {
  return areOpposite(
    station,
    shot(fresh).map((point) => point.carriages),
  );
}

function isPlumbContradicted({ plumbed }: State, { name, index }: Station, odd: readonly Odd[]): boolean {
  const known = plumbed.get(name);
  return known !== undefined && contradiction({ station: index, order: known.order }, odd) !== undefined;
}

function lacksPlumb({ limits, plumbed, system }: State, { name }: Station, { turns }: Move = NO_MOVE): boolean {
  const max = limits && lookup(limits.stations, name)?.plumb;
  return max !== undefined && !(system && holds(system, plumbed.get(name), max, turns));
}

/** A share of the limit: a plumb that is worked out and is known no better than this is only guessed at. */
const GUESSED = 0.5;

function isGuess({ requirements }: Conformance, fresh: readonly Taken[]): boolean {
  const plumb = requirements.find(({ limit }) => limit === 'plumb');
  return plumb !== undefined && plumbOf(fresh) === undefined && (plumb.u ?? Infinity) > GUESSED * plumb.max;
}

/** A tape that the beam missed was shot too. */
export function shot(fresh: readonly Taken[]): Point[] {
  return points(fresh).filter((point) => isMark(point) || point.none);
}

function stateOf(
  last: readonly Taken[],
  complete: boolean,
  fresh: readonly Taken[],
  found: Conformance | undefined,
  confidence = 1,
): StationState {
  if (last.length === 0) return 'unread';
  if (fresh.length === 0) return 'stale';
  if (!complete) return 'incomplete';
  if (points(fresh).some((point) => point.none)) return 'outside';
  // A beam that the model cannot even bring to the tape is not within.
  if (!found) return 'outside';
  if (found.probability >= confidence) return 'within';
  return found.inside ? 'borderline' : 'outside';
}

function unmeasured({ limits }: Demand) {
  return (['centre', 'spread', 'plumb'] as const).flatMap((limit) => {
    const max = limits[limit];
    return max === undefined ? [] : [{ limit, max }];
  });
}
