/**
 * The next turns of a mirror rest on the few responses that its turns have had, which may fit more than one description of its
 * mount: two screws that were turned alike look the same with their names exchanged. A turn that would lose a mark under a
 * description that is still possible is made smaller, and by the description that fits best: what it shows then tells them apart.
 */
import {
  runFilter,
  assuming,
  estimateOf,
  predict,
  type Estimate,
  type State,
  type LoggedReading,
} from '../estimate/index.ts';
import { moveOf } from './adjusters.ts';
import type { Plan } from './plan.ts';
import { planFor } from './plan-for.ts';
import { worsens, type Limited, type Work } from './work.ts';
import { alternatives, ALTERNATIVE, WRITTEN, queryAt, type Alternative } from '../machine/index.ts';

/** Turns, the largest that is safe. */
const BOUNDS = [1 / 4, 1 / 8, 1 / 16] as const;

/** A description of which the posterior probability is a smaller share of the largest one is left out. */
const POSSIBLE = 0.015;

/** The first turn shows what turns do; after as many responses as this no description is in doubt that a turn can still test. */
const MOST_RESPONSES = 3;

/** The machine by one description of a mount; `mount` is absent for the workbook's own. */
interface Description {
  readonly estimate: Estimate;
  readonly mount?: Alternative;
  /** Logarithm of its posterior probability, but for a constant. */
  readonly logPosterior: number;
}

/** The plan itself; or one with smaller turns, and the description that it follows. */
export interface SafePlan {
  readonly plan: Plan;
  readonly small?: { readonly mount?: Alternative };
}

export function withSafeTurns(state: State, estimate: Estimate, job: Work, proposed: Plan): SafePlan {
  const parts = new Set(proposed.adjusters.flatMap(({ kind, part }) => (kind === 'turn' ? [part] : [])));
  const possible = descriptions(state, estimate, parts);
  const isSafe = (plan: Plan) => possible.every((one) => keepsMarks(one.estimate, job.target, plan));
  if (possible.every(({ mount }) => !mount) || isSafe(proposed)) return { plan: proposed };
  const smaller = possible.flatMap(({ estimate: by, mount }) =>
    BOUNDS.flatMap((bound): Required<SafePlan>[] => {
      const plan = planFor(withBound(by, estimate, parts, bound), job, 'screws');
      return plan ? [{ plan, small: { ...(mount && { mount }) } }] : [];
    }),
  );
  // While the workbook's own description is possible, a move helps by it too.
  const helping = smaller.filter(({ plan }) =>
    possible.every((one) => one.mount || helpsBy(one.estimate, job.target, plan)),
  );
  return helping.find(({ plan }) => isSafe(plan)) ?? helping.at(-1) ?? { plan: proposed };
}

/** Those that the responses so far leave possible, the most probable first. */
function descriptions({ segment, system }: State, estimate: Estimate, parts: ReadonlySet<string>): Description[] {
  const filtered = runFilter(segment!);
  const written: Description = { estimate, logPosterior: filtered.logDensity + WRITTEN };
  const unsure = new Set([...parts].filter((part) => isUnsure(filtered.responded.get(part) ?? 0)));
  if (unsure.size === 0 || filtered.mount) return [written];
  const others = alternatives(system!, unsure).map((mount): Description => {
    const { distribution, logDensity } = assuming(segment!, { noise: filtered.noise, mount });
    return { estimate: estimateOf(distribution), mount, logPosterior: logDensity + ALTERNATIVE };
  });
  const all = [written, ...others].sort((one, other) => other.logPosterior - one.logPosterior);
  return all.filter(({ logPosterior }) => logPosterior >= all[0]!.logPosterior + Math.log(POSSIBLE));
}

function isUnsure(responses: number): boolean {
  return responses > 0 && responses <= MOST_RESPONSES;
}

/** The machine by one description, in the hands of the written one. */
function withBound(by: Estimate, { hands }: Estimate, parts: ReadonlySet<string>, bound: number): Estimate {
  const most = (part: string) => (parts.has(part) ? Math.min(bound, hands.most(part)) : hands.most(part));
  return { ...by, hands: { ...hands, most } };
}

function helpsBy(by: Estimate, { demand }: Limited, { adjusters, amounts }: Plan): boolean {
  return !worsens(by, demand, moveOf(adjusters, amounts));
}

/** Whether every mark of the station that is on its tape now is on it after the move. */
function keepsMarks(by: Estimate, { station, fresh }: Limited, { adjusters, amounts }: Plan): boolean {
  const marks = fresh.filter(({ height, none }) => height === 0 && !none);
  const move = moveOf(adjusters, amounts);
  const radius = station.element.aperture / 2;
  return marks.every(({ carriages }: LoggedReading) => {
    const mean = predict(by, [queryAt(station, carriages)], move)?.mean;
    return mean !== undefined && Math.hypot(mean[0]!, mean[1]!) <= radius;
  });
}
