/**
 * Which move brings a station within its limits most surely, upstream ones kept within.
 *
 * For every choice of adjusters, cheapest first, the amounts that a hand can do and that leave the smallest largest
 * share of a limit, a standard deviation counted on top (`amounts.ts`). The chance that is told with the choice is the
 * joint conformance probability through the exact trace; it is drawn, a little rough, and so does not choose itself:
 * a machine, its mirror image and the same workbook in inches must get the same advice.
 */
import { affects, moveOf, NOTHING, pushing, shifting, steering, type Adjuster, type Choice } from './adjusters.ts';
import { bestAmounts, closely, worstNow, type Amounts } from './amounts.ts';
import type { Demand } from './demand.ts';
import { Demands } from './demands.ts';
import { Effects } from './effects.ts';
import type { Estimate } from './estimate.ts';
import { probabilityAfter } from './probability.ts';
import type { Station, System } from './system.ts';

export interface Plan {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  /** Largest share of a limit that is probably taken, by the target and the stations before it. */
  readonly worst: number;
  /** That the target and the stations before it are all within afterwards. */
  readonly probability: number;
}

/**
 * @param upstream demands of the stations before the target, that must stay within
 * @param later those of the stations after it, as the model has them: between equals the move that they like better
 * @returns undefined where no move is better than none
 */
export function plan(estimate: Estimate, target: Demand, upstream: readonly Demand[], later: readonly Demand[]): Plan | undefined {
  const demands = new Demands(upstream, target, later);
  const effects = Effects.of(estimate, demands);
  if (!effects) return undefined;
  const still = worstNow(effects);
  const possible = choices(estimate, target, demands);
  const found = shortlist(possible, effects)
    .filter(({ worst }) => worst < CLOSER * still)
    .reduce<Candidate | undefined>((best, candidate) => (best && price(best) <= price(candidate) ? best : candidate), undefined);
  if (!found || (found.worst > MUCH_CLOSER * still && isOutOfReach(possible, effects))) return undefined;
  const { adjusters, amounts, worst } = found;
  const move = moveOf(adjusters, amounts);
  return { adjusters, amounts, worst, probability: demands.all.reduce((product, demand) => product * probabilityAfter(demand, estimate, move), 1) };
}

/** What a move must take off the largest share to be worth a hand, and what where the limit itself is out of reach. */
const CLOSER = 0.95;
const MUCH_CLOSER = 0.7;

/** Whether no choice could meet every limit even if everything were known and every hand exact. */
function isOutOfReach(possible: readonly Choice[], effects: Effects): boolean {
  const certain = effects.certain();
  return !possible.some(({ adjusters }) => (bestAmounts(adjusters, certain)?.score ?? Infinity) <= REACHED);
}

/** A score of 1 with what small shares add. */
const REACHED = 1.1;

interface Candidate extends Amounts {
  readonly cost: number;
}

/** A unit of cost must bring so much of what is left; ending outside costs half a limit on top. */
const COST_IN_SHARE = 0.08;
const ENDING_OUTSIDE = 0.5;

function price({ score, worst, cost }: Candidate): number {
  return score * (1 + COST_IN_SHARE * cost) + (worst > 1 ? ENDING_OUTSIDE : 0);
}

/** A largest share that leaves room for a deviation more: dearer choices are not tried. */
const AMPLE = 0.7;
/** Scores closer than this are equal: then the choice that comes first wins, the tube before a block. */
const TIE = 0.02;

/** The best candidate of each cost, cheapest first. */
function shortlist(possible: readonly Choice[], effects: Effects): Candidate[] {
  const best = new Map<number, Candidate>();
  let ample = Infinity;
  let cheapest = Infinity;
  for (const { adjusters, cost } of possible) {
    if (cost > ample) break;
    const had = best.get(cost)?.score ?? Infinity;
    const found = bestAmounts(adjusters, effects, Math.min(had, cheapest / (1 + COST_IN_SHARE * cost)));
    if (!found || found.score > had - TIE) continue;
    best.set(cost, { cost, ...found });
    cheapest = Math.min(cheapest, price({ cost, ...found }));
    if (found.worst <= AMPLE) ample = cost;
  }
  return [...best.values()].map((candidate) => ({ ...candidate, ...closely(candidate, effects) }));
}

/** Mirrors before the target whose screws are considered, and the most screws that one advice asks for. */
const MIRRORS_BACK = 3;
const MOST_SCREWS = 4;
const DEAREST = 11;

/**
 * Screws of up to three mirrors; or the tube, a block or a piston with the screws of the last mirror: a part moved by
 * hand is not good to what a fine turn further up would add.
 */
function choices({ system }: Estimate, { station }: Demand, demands: Demands): Choice[] {
  const mirrors = system.mirrors.filter((mirror) => mirror < station.index).slice(-MIRRORS_BACK);
  const steer = mirrors.map((mirror) => steering(system.screws.filter((screw) => screw.mirror === mirror)));
  const turns = steer.reduce(combined, [NOTHING]).filter((choice) => choice.adjusters.length <= MOST_SCREWS);
  const moves = [shifting(system, station), pushing(system, mirrors)].reduce(combined, [NOTHING]).filter(({ cost }) => cost > 0);
  return [...turns, ...combined(steer.at(-1) ?? [NOTHING], moves)]
    .filter((choice) => choice.cost > 0 && choice.cost <= DEAREST)
    .map((choice) => ({ ...choice, cost: choice.cost + shotAgain(choice, system, demands, station) }))
    .sort((one, other) => one.cost - other.cost);
}

/** Each station before the target whose marks the choice moves must be shot again, which costs as much as a screw. */
function shotAgain({ adjusters }: Choice, system: System, { all }: Demands, target: Station): number {
  const moved = all.filter(({ station }) => station !== target && adjusters.some((adjuster) => affects(system, adjuster, station)));
  return moved.length;
}

function combined(some: readonly Choice[], others: readonly Choice[]): Choice[] {
  return some.flatMap((one) => others.map((other) => ({ adjusters: [...one.adjusters, ...other.adjusters], cost: one.cost + other.cost })));
}
