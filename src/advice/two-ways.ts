/**
 * Two ways to go on, near an even chance: the station is shot again, or turned at once. Each with its cost, so that
 * the technician chooses.
 */
import { MOST_REPEATS, planFor, PROBABILITY, shotsNeeded, type Limited } from '../plan/index.ts';
import type { Evaluation, Step, TwoWays } from '../model/index.ts';
import type { Estimate, State } from '../estimate/index.ts';
import type { StationVerdict } from '../verdict/index.ts';
import { moving, workOn } from './next.ts';
import type { Next } from './next-type.ts';
import { ENOUGH_SHOTS } from './shoot-again.ts';
import { shoot, shotsMore, timesShot } from './shooting.ts';

/** An even chance, give or take: the probability of being within limits, as the marks stand. */
const NEAR_EVEN = { from: 0.3, to: 0.7 } as const;

/**
 * Undefined if the next work is not at a borderline station with a probability near an even chance, if its places were
 * never shot or often enough, or if no turn makes it more probable.
 */
export function twoWays(
  state: State,
  estimate: Estimate,
  verdicts: readonly StationVerdict[],
  { verdict, steps }: Pick<Next, 'verdict' | 'steps'>,
): TwoWays | undefined {
  const limited = verdicts.filter((one): one is Limited => one.demand !== undefined);
  const job = workOn(limited);
  if (verdict !== 'continue' || !job) return undefined;
  const { target } = job;
  const { state: now, probability = 0, name } = target.report;
  if (now !== 'borderline' || probability < NEAR_EVEN.from || probability > NEAR_EVEN.to) return undefined;
  if (!steps.every((step) => isHere(step, name))) return undefined;
  const shots = shotsMore(target, estimate);
  // A place that was never shot is shot first, whatever it is predicted to be.
  const times = shots.length === 0 ? 0 : timesShot(target, shots);
  if (times === 0 || times >= ENOUGH_SHOTS) return undefined;
  const plan = planFor(estimate, job, 'screws');
  if (!plan) return undefined;
  const turned = moving(state, estimate, job, plan);
  const chance = turned.chance ?? 0;
  if (chance < probability + PROBABILITY.clear) return undefined;
  const needed = shotsNeeded(state, estimate, target, shots);
  return {
    station: name,
    probability,
    again: {
      step: shoot(target.station, shots),
      tapes: (needed ?? MOST_REPEATS) * shots.length,
      isEnough: needed !== undefined,
    },
    turn: { steps: turned.steps, chance, tapes: tapesOf(turned.steps) },
  };
}

/** Whether the step turns something or shoots this station: others (checks, repairs) come before any choice. */
function isHere(step: Step, station: string): boolean {
  return step.kind === 'shoot' ? step.station === station : step.kind === 'turn' || step.kind === 'lock';
}

function tapesOf(steps: Evaluation['steps']): number {
  return steps.reduce((sum, step) => sum + (step.kind === 'shoot' ? step.shots.length : 0), 0);
}
