/**
 * Which move makes it most probable that a station ends within its limits, upstream ones kept within.
 *
 * For every choice of adjusters, cheapest first, the amounts that a hand can do and that leave the smallest largest
 * share of a limit (`amounts.ts`); the best of each cost is then weighed by its joint conformance probability
 * through the exact trace. The linear picture only proposes; nothing that is shown comes from it.
 */
import { moveOf, NOTHING, pushing, shifting, steering, type Adjuster, type Choice } from './adjusters.ts';
import { bestAmounts, Effects } from './amounts.ts';
import { probabilityAfter, type Demand } from './conformance.ts';
import { Demands } from './demands.ts';
import type { Estimate } from './estimate.ts';
import { NOT_MOVED } from './moved.ts';

export interface Plan {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  readonly cost: number;
  /** Largest share of a limit that is predicted to be taken, by the target and the stations before it. */
  readonly worst: number;
  /** That the target and the stations before it are all within afterwards. */
  readonly probability: number;
}

/** @param upstream demands of the stations before the target, that must stay within. Undefined: no move is better than none. */
export function plan(estimate: Estimate, target: Demand, upstream: readonly Demand[], confidence: number): Plan | undefined {
  const demands = new Demands([...upstream, target]);
  const effects = Effects.of(estimate, demands);
  if (!effects) return undefined;
  const still = { adjusters: [], amounts: [], cost: 0, worst: demands.worst(effects.base) };
  const best = [still, ...shortlist(estimate, target, demands, effects)]
    .map((candidate) => weigh(candidate, estimate, demands))
    .reduce((one, other) => (better(other, one, confidence) ? other : one));
  return best.cost > 0 ? best : undefined;
}

type Candidate = Omit<Plan, 'probability'>;

/** A share of the limits that leaves room for what a hand and a screw do differently: dearer choices are not tried. */
const AMPLE = 0.5;

/** The best candidate of each cost, cheapest first. */
function shortlist(estimate: Estimate, target: Demand, demands: Demands, effects: Effects): Candidate[] {
  const best = new Map<number, Candidate>();
  let ample = Infinity;
  for (const { adjusters, cost } of choices(estimate, target)) {
    if (cost > ample) break;
    const found = bestAmounts(adjusters, effects, demands);
    if (!found) continue;
    const candidate = { cost, ...found };
    const before = best.get(cost);
    if (!before || withSize(candidate) < withSize(before)) best.set(cost, candidate);
    if (found.worst <= AMPLE) ample = cost;
  }
  return [...best.values()];
}

/** What a turn or a millimetre counts in shares of the limits: hands and screws err in proportion to the move. */
const SIZE = { turn: 0.3, piston: 0.3, shift: 0.03 } as const;

function withSize({ worst, adjusters, amounts }: Candidate): number {
  return adjusters.reduce((sum, { kind }, k) => sum + SIZE[kind] * Math.abs(amounts[k]!), worst);
}

/** Mirrors before the target whose screws are considered, and the most screws that one advice asks for. */
const MIRRORS_BACK = 3;
const MOST_SCREWS = 4;
const DEAREST = 11;

function choices({ system }: Estimate, { station }: Demand): Choice[] {
  const mirrors = system.mirrors.filter((mirror) => mirror < station.index).slice(-MIRRORS_BACK);
  const turns = mirrors
    .map((mirror) => steering(system.screws.filter((screw) => screw.mirror === mirror)))
    .reduce(combined, [NOTHING])
    .filter((choice) => choice.adjusters.length <= MOST_SCREWS);
  return [turns, shifting(system, station), pushing(system, mirrors)]
    .reduce(combined, [NOTHING])
    .filter((choice) => choice.cost > 0 && choice.cost <= DEAREST)
    .sort((one, other) => one.cost - other.cost);
}

function combined(some: readonly Choice[], others: readonly Choice[]): Choice[] {
  return some.flatMap((one) => others.map((other) => ({ adjusters: [...one.adjusters, ...other.adjusters], cost: one.cost + other.cost })));
}

function weigh(candidate: Candidate, estimate: Estimate, { all }: Demands): Plan {
  const move = candidate.cost > 0 ? moveOf(candidate.adjusters, candidate.amounts) : NOT_MOVED;
  return { ...candidate, probability: all.reduce((product, demand) => product * probabilityAfter(demand, estimate, move), 1) };
}

/** What a further unit of cost must bring: in probability, or where that is nil, in the share of the limits. */
const COST_IN_PROBABILITY = 0.01;
const COST_IN_SHARE = 0.05;

function better(one: Plan, other: Plan, confidence: number): boolean {
  if (one.probability >= confidence && other.probability >= confidence) return one.cost < other.cost;
  return worth(one) > worth(other);
}

/** The share counts in full while the probability says nothing yet, and little once it does. */
function worth({ probability, worst, cost }: Plan): number {
  return probability - COST_IN_PROBABILITY * cost - (1 - probability) * (worst + COST_IN_SHARE * cost);
}
