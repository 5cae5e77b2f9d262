/**
 * The next turns of a mirror depend on few responses, which may fit more than one description of its mount: two screws
 * that were turned alike respond the same with their names swapped. A turn that would lose a mark under a possible
 * description is made smaller, by the description that fits best: its response then distinguishes them.
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

/** Bounds of a safe turn, turns; the largest safe one is used. */
const BOUNDS = [1 / 4, 1 / 8, 1 / 16] as const;

/** Descriptions with a posterior probability below this fraction of the largest one are ignored. */
const POSSIBLE = 0.015;

/** Number of responses after which turns cannot distinguish further descriptions. */
const MOST_RESPONSES = 3;

/** The machine by one description of a mount; `mount` is absent for the workbook's own. */
interface Description {
  readonly estimate: Estimate;
  readonly mount?: Alternative;
  /** Log posterior probability, up to a constant. */
  readonly logPosterior: number;
}

/** The plan itself; or one with smaller turns, with the description that it uses. */
export interface SafePlan {
  readonly plan: Plan;
  readonly small?: { readonly mount?: Alternative };
}

/** Makes the turns of a proposed plan small enough for every possible description of its mounts. */
export function withSafeTurns(state: State, estimate: Estimate, job: Work, proposed: Plan): SafePlan {
  const parts = new Set(proposed.adjusters.flatMap(({ kind, part }) => (kind === 'turn' ? [part] : [])));
  const possible = descriptions(state, estimate, parts);
  const isSafe = (plan: Plan) => possible.every((description) => keepsMarks(description.estimate, job.target, plan));
  if (possible.every(({ mount }) => !mount) || isSafe(proposed)) return { plan: proposed };
  const smaller = possible.flatMap(({ estimate: by, mount }) =>
    BOUNDS.flatMap((bound): Required<SafePlan>[] => {
      const plan = planFor(withBound(by, estimate, parts, bound), job, 'screws');
      return plan ? [{ plan, small: { ...(mount && { mount }) } }] : [];
    }),
  );
  // While the workbook's own description is possible, a move must help by it too.
  const helping = smaller.filter(({ plan }) =>
    possible.every((description) => description.mount || helpsBy(description.estimate, job.target, plan)),
  );
  return helping.find(({ plan }) => isSafe(plan)) ?? helping.at(-1) ?? { plan: proposed };
}

/** Descriptions that the responses so far leave possible, the most probable first. */
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

/** An estimate by one description, with the bounds on turns of the written one. */
function withBound(by: Estimate, { hands }: Estimate, parts: ReadonlySet<string>, bound: number): Estimate {
  const most = (part: string) => (parts.has(part) ? Math.min(bound, hands.most(part)) : hands.most(part));
  return { ...by, hands: { ...hands, most } };
}

function helpsBy(by: Estimate, { demand }: Limited, { adjusters, amounts }: Plan): boolean {
  return !worsens(by, demand, moveOf(adjusters, amounts));
}

/** Whether every mark of the station stays on its tape after the move. */
function keepsMarks(by: Estimate, { station, fresh }: Limited, { adjusters, amounts }: Plan): boolean {
  const marks = fresh.filter(({ height, none }) => height === 0 && !none);
  const move = moveOf(adjusters, amounts);
  const radius = station.element.aperture / 2;
  return marks.every(({ carriages }: LoggedReading) => {
    const mean = predict(by, [queryAt(station, carriages)], move)?.mean;
    return mean !== undefined && Math.hypot(mean[0]!, mean[1]!) <= radius;
  });
}
