/**
 * Shots of a station: for missing readings, or again because its limits are not shown to be met or a move would be
 * doubtful.
 */
import { waysOf, type ShotRequest, type Step } from '../model/index.ts';
import { missesBed, type Estimate, type State } from '../estimate/index.ts';
import { NO_MOVE, points, moveOfSteps } from '../machine/index.ts';
import { staleInWords } from './mover-words.ts';
import { percent } from '../words/index.ts';
import { expectations, shoot, shotsLacking } from './shooting.ts';
import { PROBABILITY, type Limited } from '../plan/index.ts';
import type { Next } from './next-type.ts';

/**
 * Mean shots of each place: from ENOUGH_SHOTS on a turn is better than another shot, unless few shots are sure to
 * decide; after MOST_SHOTS more shots add nothing.
 */
export const ENOUGH_SHOTS = 2;
export const SOME_SHOTS = 3;
export const MOST_SHOTS = 4;

export function shotsAPlace({ demand, fresh }: Limited): number {
  return fresh.filter(({ height }) => height === 0).length / demand.places.length;
}

export function going(state: State, estimate: Estimate, steps: readonly Step[]): Next {
  const last = steps.at(-1);
  return {
    verdict: 'continue',
    steps,
    expected: last?.kind === 'shoot' ? expectations(state, estimate, last, moveOfSteps(estimate.system, steps)) : [],
  };
}

export function shootLacking(state: State, estimate: Estimate, target: Limited): Next {
  const { report, station } = target;
  const why =
    report.state === 'unread'
      ? `${report.name} has not been shot yet.`
      : report.state === 'incomplete'
        ? lackInWords(target)
        : staleInWords(state, target);
  return going(state, estimate, [shoot(station, shotsLacking(target), why)]);
}

/** What is missing at a station that was read in part. */
function lackInWords({ report, fresh, lacksPlumb }: Limited): string {
  if (missesBed(fresh))
    return `The beam misses the tape on the bed below ${report.name}: lay a larger tape under the head, or shoot at smaller heights.`;
  const half = points(fresh).find((point) => !point.none && (point.right === undefined) !== (point.up === undefined));
  if (half)
    return `${report.name} was read in one direction only: ${waysOf(half.right === undefined ? 'right' : 'up', report.frame.runs)} is missing.`;
  if (fresh.some(({ height }) => height > 0) && lacksPlumb(NO_MOVE))
    return `The tape on the bed below ${report.name} does not show plumb yet. Log two heights in one cell, with both directions read.`;
  return `${report.name} has not been shot at every place that its limits need.`;
}

/** @param times number of repeats after which the limits are shown to be met, if the marks stay where they are */
export function shootAgain(
  state: State,
  estimate: Estimate,
  target: Limited,
  { shots, reason }: { readonly shots: readonly ShotRequest[]; readonly reason?: string | undefined },
  times?: number,
): Next {
  const chance = percent(target.report.probability ?? 0);
  const evidence = `probability ${chance}, required ${percent(state.limits!.confidence)}`;
  const often = times !== undefined && times > 1 ? ` About ${times} shots of each place are needed.` : '';
  const why =
    reason ??
    (target.report.state === 'borderline'
      ? `The marks on ${target.report.name} are ${(target.report.probability ?? 0) < PROBABILITY.even ? 'near' : 'probably within'} the limits, but the reading uncertainty does not allow a verdict (${evidence}). Another shot costs less than another turn.${often}`
      : `The marks on ${target.report.name} are ${(target.report.probability ?? 0) < PROBABILITY.notExcluded ? 'outside' : 'near'} the limits (${evidence}), and no practicable move improves this. Another shot ${(target.report.probability ?? 0) < PROBABILITY.notExcluded ? 'shows the cause' : 'may show that nothing needs to be done'}.${often}`);
  return going(state, estimate, [shoot(target.station, shots, why)]);
}
