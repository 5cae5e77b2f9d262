/**
 * Shots before a doubtful move: they may increase its chance, show that it does not help, or are at places that it may
 * worsen.
 */
import {
  moveOf,
  afterShots,
  chanceAfter,
  predictedDemands,
  tiltAfter,
  withPlacesUnread,
  WORTH_A_WARNING,
  type Plan,
  type Limited,
  type Work,
  PROBABILITY,
} from '../plan/index.ts';
import type { Estimate, State } from '../estimate/index.ts';
import { problemInWords } from './reasons.ts';
import { percent } from '../words/index.ts';
import { heightsOf, shotsMore, timesShot } from './shooting.ts';
import { comesStraightDown, stuck } from './stuck.ts';
import { MOST_SHOTS, shootAgain, shotsAPlace } from './shoot-again.ts';
import type { Next } from './next-type.ts';

/** The shot that comes before a doubtful move; undefined if it would not increase the chance. */
export function shotFirst(state: State, estimate: Estimate, job: Work, plan: Plan): Next | undefined {
  const { target } = job;
  const move = moveOf(plan.adjusters, plan.amounts);
  const demands = predictedDemands(estimate, job);
  const now = chanceAfter(estimate, demands, move);
  if (now >= PROBABILITY.good) return undefined;
  const shots = shotsMore({ ...target, demand: demands.at(-1)! }, estimate);
  if (shots.length === 0 || timesShot(target, shots) >= MOST_BEFORE_A_MOVE) return undefined;
  const then = chanceAfter(afterShots(state, estimate, target, shots), demands, move);
  if (then < now + PROBABILITY.worthAShot) return undefined;
  const reason = `${problemInWords(target)} A move now has a chance of ${percent(now)} to bring it within. Another shot first raises that chance to about ${percent(then)}.`;
  return shootAgain(state, estimate, target, { shots, reason });
}

/** Maximum shots of one place before a move; after them a move shows more. */
const MOST_BEFORE_A_MOVE = 2;

/**
 * Where a lens has no plumb limit, its mark could be steered to the centre by tilting the beam. Two heights distinguish
 * a tilted beam from one that comes down straight beside the lens, which the last mirror's screws do not correct.
 */
export function plumbFirst(
  state: State,
  estimate: Estimate,
  target: Limited,
  { adjusters, amounts }: Plan,
): Next | undefined {
  const { station, demand, fresh, report } = target;
  const last = estimate.system.mirrors.filter((mirror) => mirror < station.index).at(-1);
  const steers = adjusters.some(
    ({ kind, part }) => kind === 'turn' && last !== undefined && part === estimate.system.stations[last]!.name,
  );
  if (
    station.element.kind !== 'lens' ||
    demand.limits.plumb !== undefined ||
    !steers ||
    fresh.some(({ height }) => height > 0)
  )
    return undefined;
  const tilt = tiltAfter(estimate, station, moveOf(adjusters, amounts));
  if (tilt === undefined || tilt < WORTH_A_WARNING) return undefined;
  const reason = `${problemInWords(target)} Steering it to the centre with ${estimate.system.stations[last!]!.name} would tilt the beam by ${Math.round(1000 * tilt)} mrad, and ${report.name} has no plumb limit. Shoot two heights first: these screws cannot correct a beam that comes down straight beside the lens.`;
  return shootAgain(state, estimate, target, { shots: heightsOf(station), reason });
}

/** Asks for more shots, or reports that nothing helps. */
export function lookAgain(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const shots = shotsMore(target, estimate);
  if (
    shots.length === 0 ||
    shotsAPlace(target) >= MOST_SHOTS ||
    timesShot(target, shots) >= MOST_SHOTS ||
    comesStraightDown(target)
  )
    return stuck(state, job, estimate);
  return shootAgain(state, estimate, target, {
    shots,
    reason: `${problemInWords(target)} No practicable move is likely to help. Another shot may show more.`,
  });
}

/** Asks for shots at other places: the move is good at the places that were shot, and may be bad at others. */
export function lookElsewhere(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const unread = withPlacesUnread(target);
  const shots =
    unread.demand.places.length === 0 ? [] : shotsMore(unread, estimate).filter(({ height }) => height === undefined);
  if (shots.length === 0) return lookAgain(state, estimate, job);
  return shootAgain(state, estimate, target, {
    shots,
    reason: `${problemInWords(target)} A move now would help at the places that were shot, and may do harm at a place that was not. Shoot that place first.`,
  });
}
