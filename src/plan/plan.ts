/**
 * Which move brings a station within its limits at the least cost, upstream ones kept within.
 *
 * For every choice of adjusters the amounts that a hand can do and that leave the smallest largest share of a limit
 * (`amounts.ts`); the best of them are weighed through the exact trace: what they cost, what has to be shot again, and what
 * another round would cost as often as this one fails. The chance that is told with the choice is the joint conformance
 * probability; it is drawn, a little rough, and so does not choose itself: a machine, its mirror image and the same workbook
 * in inches must get the same advice.
 */
import { smallestProbability } from '../statistics/index.ts';
import {
  affects,
  aiming,
  moveOf,
  NOTHING,
  pushing,
  shifting,
  steering,
  type Adjuster,
  type Choice,
} from './adjusters.ts';
import { bestAmounts, refine, leastSquaresAmounts, worstNow, type Amounts } from './amounts.ts';
import { Demands, probabilityAfter, type Demand } from '../verdict/index.ts';
import { Effects } from './effects.ts';
import { predict, type Estimate } from '../estimate/index.ts';
import { NO_MOVE, placesNeeded, type Station, type System } from '../machine/index.ts';

export interface Plan {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  /** Largest share of a limit that is probably taken, by the target and the stations before it. */
  readonly worst: number;
  /** What it is worth more than leaving things as they are, in screws turned; below 0 where it costs more than it brings. */
  readonly saves: number;
  /** The same share before the move. */
  readonly before: number;
  /** What it costs, failing and shooting again included, in screws turned. */
  readonly price: number;
  /** That the target and the stations before it are all within afterwards. */
  readonly probability: number;
}

/** Whether the tube and the blocks may move as well. */
export type Among = 'everything' | 'screws';

/**
 * @param upstream demands of the stations before the target, that must stay within
 * @param later those of the stations after it, as the model has them: between equals the move that they like better
 * @returns undefined where no move is better than none
 */
export function plan(
  estimate: Estimate,
  target: Demand,
  upstream: readonly Demand[],
  later: readonly Demand[],
  among: Among = 'everything',
): Plan | undefined {
  const demands = new Demands(upstream, target, later);
  const effects = Effects.of(estimate, demands);
  if (!effects) return undefined;
  // The mirrors fitted the old tube: only what aiming the new one leaves is theirs.
  const aimed =
    estimate.hands.isTubeNew && among === 'everything'
      ? best(
          estimate,
          demands,
          effects,
          pricedChoices(aiming(estimate.system, target.station), estimate, target, demands),
        )
      : undefined;
  return aimed && aimed.worst <= 1
    ? aimed
    : best(
        estimate,
        demands,
        effects,
        choices(estimate, target, demands).filter(
          ({ adjusters }) => among === 'everything' || !adjusters.some(({ kind }) => kind === 'shift'),
        ),
      );
}

function best(estimate: Estimate, demands: Demands, effects: Effects, possible: readonly Choice[]): Plan | undefined {
  const noMove: ScoredCandidate = {
    adjusters: [],
    amounts: [],
    worst: worstNow(effects),
    score: 0,
    cost: 0,
    minProbability: minProbability(estimate, demands, [], []),
  };
  const better = shortlist(possible, effects)
    .map(
      (candidate): ScoredCandidate => ({
        ...candidate,
        minProbability: minProbability(estimate, demands, candidate.adjusters, candidate.amounts),
      }),
    )
    .filter(
      ({ worst, minProbability }) =>
        worst < CLOSER * noMove.worst || minProbability > noMove.minProbability + MORE_PROBABLE,
    );
  const promising = better.some(
    ({ worst, minProbability }) => worst <= MUCH_CLOSER * noMove.worst || minProbability >= WORTH_TRYING,
  );
  if (!promising && isOutOfReach(possible, effects)) return undefined;
  const cheapestMove = cheapest(withoutSlight(better));
  if (!cheapestMove) return undefined;
  const { adjusters, amounts, worst } = cheapestMove;
  const move = moveOf(adjusters, amounts);
  return {
    adjusters,
    amounts,
    worst,
    before: noMove.worst,
    saves: price(noMove) - price(cheapestMove),
    price: price(cheapestMove),
    probability: demands.all.reduce((product, demand) => product * probabilityAfter(demand, estimate, move), 1),
  };
}

/** Turns: less than this is no reason to touch a mirror before the last one, unless the chance is too small without it. */
const SLIGHT = 1 / 16;
const LIKELY = 0.8;

function withoutSlight(all: readonly ScoredCandidate[]): readonly ScoredCandidate[] {
  const plain = all.filter((one) => !isSlight(one));
  const highest = Math.max(0, ...plain.map(({ minProbability }) => minProbability));
  return highest >= LIKELY
    ? plain
    : all.filter((one) => !isSlight(one) || one.minProbability >= highest + MORE_PROBABLE);
}

function isSlight({ adjusters, amounts }: ScoredCandidate): boolean {
  const last = adjusters.findLast(({ kind }) => kind === 'turn')?.part;
  return adjusters.some(({ kind, part }, k) => kind === 'turn' && part !== last && Math.abs(amounts[k]!) < SLIGHT);
}

/** A tube or block is moved only where no screws reach the same probability. */
function cheapest(all: readonly ScoredCandidate[]): ScoredCandidate | undefined {
  const best = (some: readonly ScoredCandidate[]) =>
    some.reduce<ScoredCandidate | undefined>(
      (most, one) => (most && price(one) >= price(most) - SAME ? most : one),
      undefined,
    );
  const bestMove = best(all);
  if (!bestMove || !isShift(bestMove)) return bestMove;
  return (
    best(all.filter((one) => !isShift(one) && one.minProbability >= bestMove.minProbability - EQUALLY_PROBABLE)) ??
    bestMove
  );
}

function isShift({ adjusters }: ScoredCandidate): boolean {
  return adjusters.some(({ kind }) => kind === 'shift');
}

/** Probabilities closer than this are the same. */
const EQUALLY_PROBABLE = 0.02;

/** What a move must better to be called one: the largest share, or how sure every limit is. */
const CLOSER = 0.95;
const MORE_PROBABLE = 0.1;

/** What it must take off the largest share where the limit itself is out of reach, and how sure it must be else. */
const MUCH_CLOSER = 0.7;
const WORTH_TRYING = 0.3;

/** Whether no choice could meet every limit even if everything were known and every hand exact. */
function isOutOfReach(possible: readonly Choice[], effects: Effects): boolean {
  const certain = effects.certain();
  return !possible
    .map(unbounded)
    .some(
      ({ adjusters }) =>
        (bestAmounts(adjusters, leastSquaresAmounts(adjusters, certain), certain)?.score ?? Infinity) <= REACHED,
    );
}

/** What is turned little at once for caution's sake can be turned again. */
function unbounded({ adjusters, cost }: Choice): Choice {
  return adjusters.every(({ most = Infinity }) => most === Infinity)
    ? { adjusters, cost }
    : { adjusters: adjusters.map(({ most: _, ...adjuster }) => adjuster), cost };
}

/** A score of 1 with what small shares add. */
const REACHED = 1.1;

interface Candidate extends Amounts {
  readonly cost: number;
}

interface ScoredCandidate extends Candidate {
  /** The smallest probability that any one of the limits is met. */
  readonly minProbability: number;
}

function minProbability(
  estimate: Estimate,
  demands: Demands,
  adjusters: readonly Adjuster[],
  amounts: readonly number[],
): number {
  const predicted = predict(estimate, demands.needed, adjusters.length === 0 ? NO_MOVE : moveOf(adjusters, amounts));
  return predicted
    ? smallestProbability(demands.terms.slice(0, demands.requiredCount), predicted.mean, predicted.covariance)
    : 0;
}

/** What another round costs, in screws turned; and each limit's width by which the beam is then still off. */
const ROUND = 30;
const OFF = 3;

/** What a whole turn costs beyond taking hold of the screw: between equals the smaller move wins, and a beam steered far leans. */
const TURN = 2;

function price({ adjusters, amounts, worst, cost, minProbability }: ScoredCandidate): number {
  const turned = adjusters.reduce((sum, { kind }, k) => sum + (kind === 'shift' ? 0 : Math.abs(amounts[k]!)), 0);
  return cost + TURN * turned + ROUND * (1 - minProbability) + OFF * Math.max(0, worst - 1);
}

/** Prices closer than this are equal: then the choice that comes first wins, the tube before a block. */
const SAME = 0.05;
const TIE = 0.02;

/** So many are searched in steps of a hand, and of those so many weighed closely. */
const SEARCHED = 48;
const SHORTLIST = 8;
/** What a unit of cost must take off the largest share to come onto the list. */
const COST_IN_SHARE = 0.08;

/** Those that promise most for what they cost. */
function shortlist(possible: readonly Choice[], effects: Effects): Candidate[] {
  const aimed = possible.map((choice) => {
    const aim = leastSquaresAmounts(choice.adjusters, effects);
    return { ...choice, aim, score: aim.score };
  });
  const searched = topBy(SEARCHED, aimed).flatMap(({ adjusters, cost, aim }): Candidate[] => {
    const best = bestAmounts(adjusters, aim, effects);
    return best ? [{ cost, ...best }] : [];
  });
  return topBy(SHORTLIST, searched).map((candidate) => ({ ...candidate, ...refine(candidate, effects) }));
}

/** The first so many by score and cost; between equals the one that came first. */
function topBy<T extends { readonly score: number; readonly cost: number }>(count: number, of: readonly T[]): T[] {
  const promise = ({ score, cost }: T) => Math.round((score + COST_IN_SHARE * cost) / TIE);
  return of.toSorted((one, other) => promise(one) - promise(other)).slice(0, count);
}

/** Mirrors before the target whose screws are considered, and the most screws that one advice asks for. */
const MIRRORS_BACK = 3;
const MOST_SCREWS = 4;
const SCREWS_WITH_A_SHIFT = 2;
const DEAREST = 11;

/**
 * Screws of up to three mirrors; or the tube or a block with a screw or two of any of them; or a piston with the screws of
 * the last mirror: a part moved by hand is not good to what a third fine turn would add.
 */
function choices(estimate: Estimate, target: Demand, demands: Demands): Choice[] {
  const { system, hands } = estimate;
  const { station } = target;
  const mirrors = system.mirrors.filter((mirror) => mirror < station.index).slice(-MIRRORS_BACK);
  const steer = mirrors.map((mirror) =>
    steering(
      hands,
      system.screws.filter((screw) => screw.mirror === mirror),
    ),
  );
  const turns = steer.reduce(combined, [NOTHING]).filter((choice) => choice.adjusters.length <= MOST_SCREWS);
  const shifts = shifting(system, station);
  const pushes = combined(
    pushing(hands, system, mirrors).filter(({ cost }) => cost > 0),
    shifts,
  );
  const few = turns.filter((choice) => choice.adjusters.length <= SCREWS_WITH_A_SHIFT);
  return pricedChoices(
    [
      ...turns,
      ...combined(
        few,
        shifts.filter(({ cost }) => cost > 0),
      ),
      ...combined(steer.at(-1) ?? [NOTHING], pushes),
    ],
    estimate,
    target,
    demands,
  );
}

/** With what has to be shot again; the cheapest first, and none that costs too much. */
function pricedChoices(all: readonly Choice[], { system }: Estimate, { station }: Demand, demands: Demands): Choice[] {
  const shooting = demands.all.map((demand) => ({ station: demand.station, cost: shotsOf(demand) }));
  return all
    .filter((choice) => choice.cost > 0 && choice.cost <= DEAREST)
    .map((choice) => ({ ...choice, cost: choice.cost + shotAgain(choice, system, shooting, station) }))
    .sort((one, other) => one.cost - other.cost);
}

/** A mark shot again, in screws turned. */
export const SHOT = 1 / 3;

/** All that a station takes. */
function shotsOf({ station, limits }: Demand): number {
  return SHOT * (placesNeeded(station).length + (limits.plumb === undefined ? 0 : 2));
}

/** Each station whose marks the choice moves must be shot again. */
function shotAgain(
  { adjusters }: Choice,
  system: System,
  shooting: readonly { readonly station: Station; readonly cost: number }[],
  target: Station,
): number {
  const moved = shooting.filter(
    ({ station }) => station === target || adjusters.some((adjuster) => affects(system, adjuster, station)),
  );
  return moved.reduce((sum, { cost }) => sum + cost, 0);
}

/** Every one of the ones with every one of the others. */
export function combined(some: readonly Choice[], others: readonly Choice[]): Choice[] {
  return some.flatMap((one) =>
    others.map((other) => ({ adjusters: [...one.adjusters, ...other.adjusters], cost: one.cost + other.cost })),
  );
}
