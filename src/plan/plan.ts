/**
 * The move that brings a station within its limits at the least cost, with upstream stations kept within.
 *
 * For every choice of adjusters it searches the amounts, in steps of a hand, that minimise the largest utilisation of a
 * limit (`amounts.ts`). The best of them are evaluated by the exact trace: their cost, the shots that have to be
 * repeated, and the cost of another round times the probability of failure. The reported chance is the joint
 * conformance probability. It is a quasi-Monte-Carlo result with a small error, so it does not choose the move: a
 * machine, its mirror image and the same workbook in inches must get the same advice.
 */
import { COST, PROBABILITY, UTILISATION } from './costs.ts';
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

/** A planned move. */
export interface Plan {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  /** Largest probable utilisation of a limit of the target and the stations before it. */
  readonly worst: number;
  /** Its saving compared with no move, in screws turned; negative if it costs more than it gains. */
  readonly saves: number;
  /** The same utilisation before the move. */
  readonly before: number;
  /** Its expected cost with failures and repeated shots, in screws turned. */
  readonly price: number;
  /** The probability that the target and the stations before it are all within afterwards. */
  readonly probability: number;
}

/** Whether the tube and the blocks may be moved too. */
export type Among = 'everything' | 'screws';

/**
 * @param upstream demands of the stations before the target, that must stay within
 * @param later demands of the stations after it, by the model: they decide between equal moves
 * @returns undefined if no move is better than none
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
  // The mirrors fit the old tube: they correct only what aiming the new one leaves.
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
        worst < UTILISATION.improved * noMove.worst || minProbability > noMove.minProbability + PROBABILITY.clear,
    );
  const promising = better.some(
    ({ worst, minProbability }) =>
      worst <= UTILISATION.muchImproved * noMove.worst || minProbability >= PROBABILITY.worthTrying,
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

/**
 * Turns: a smaller turn does not justify touching a mirror before the last one, unless the probability is too low
 * without it.
 */
const SLIGHT = 1 / 16;

function withoutSlight(all: readonly ScoredCandidate[]): readonly ScoredCandidate[] {
  const plain = all.filter((candidate) => !isSlight(candidate));
  const highest = Math.max(0, ...plain.map(({ minProbability }) => minProbability));
  return highest >= PROBABILITY.good
    ? plain
    : all.filter((candidate) => !isSlight(candidate) || candidate.minProbability >= highest + PROBABILITY.clear);
}

function isSlight({ adjusters, amounts }: ScoredCandidate): boolean {
  const last = adjusters.findLast(({ kind }) => kind === 'turn')?.part;
  return adjusters.some(({ kind, part }, k) => kind === 'turn' && part !== last && Math.abs(amounts[k]!) < SLIGHT);
}

/** The cheapest move. A tube or block is moved only if no screws reach the same probability. */
function cheapest(all: readonly ScoredCandidate[]): ScoredCandidate | undefined {
  const best = (some: readonly ScoredCandidate[]) =>
    some.reduce<ScoredCandidate | undefined>(
      (most, candidate) => (most && price(candidate) >= price(most) - SAME ? most : candidate),
      undefined,
    );
  const bestMove = best(all);
  if (!bestMove || !isShift(bestMove)) return bestMove;
  return (
    best(
      all.filter(
        (candidate) => !isShift(candidate) && candidate.minProbability >= bestMove.minProbability - PROBABILITY.same,
      ),
    ) ?? bestMove
  );
}

function isShift({ adjusters }: ScoredCandidate): boolean {
  return adjusters.some(({ kind }) => kind === 'shift');
}

/** Whether no choice could meet every limit even without any uncertainty. */
function isOutOfReach(possible: readonly Choice[], effects: Effects): boolean {
  const certain = effects.certain();
  return !possible
    .map(unbounded)
    .some(
      ({ adjusters }) =>
        (bestAmounts(adjusters, leastSquaresAmounts(adjusters, certain), certain)?.score ?? Infinity) <=
        UTILISATION.canMeet,
    );
}

/** The choice without cautious bounds: a small turn can be repeated. */
function unbounded({ adjusters, cost }: Choice): Choice {
  return adjusters.every(({ most = Infinity }) => most === Infinity)
    ? { adjusters, cost }
    : { adjusters: adjusters.map(({ most: _, ...adjuster }) => adjuster), cost };
}

interface Candidate extends Amounts {
  readonly cost: number;
}

interface ScoredCandidate extends Candidate {
  /** The smallest of the probabilities that each limit is met. */
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

function price({ adjusters, amounts, worst, cost, minProbability }: ScoredCandidate): number {
  const turned = adjusters.reduce((sum, { kind }, k) => sum + (kind === 'shift' ? 0 : Math.abs(amounts[k]!)), 0);
  return cost + COST.turn * turned + COST.round * (1 - minProbability) + COST.excess * Math.max(0, worst - 1);
}

/** Prices closer than this are equal: then the earlier choice wins, the tube before a block. */
const SAME = 0.05;
const TIE = 0.02;

/** Number of choices that are searched in steps of a hand, and of those that are refined. */
const SEARCHED = 48;
const SHORTLIST = 8;
/** The candidates with the best score for their cost. */
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

/** The first `count` by score and cost; of equal ones the earlier. */
function topBy<T extends { readonly score: number; readonly cost: number }>(count: number, of: readonly T[]): T[] {
  const promise = ({ score, cost }: T) => Math.round((score + UTILISATION.gainPerCost * cost) / TIE);
  return of.toSorted((one, other) => promise(one) - promise(other)).slice(0, count);
}

/** Mirrors before the target whose screws are considered, and the maximum number of screws of one advice. */
const MIRRORS_BACK = 3;
const MOST_SCREWS = 4;
const SCREWS_WITH_A_SHIFT = 2;

/**
 * Screws of up to three mirrors; or the tube or a block with a screw or two of any of them; or a piston with the screws
 * of the last mirror: a part moved by hand is less accurate than what a third fine turn would gain.
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

/** Adds the cost of shots to repeat; sorts by cost, and drops choices that cost too much. */
function pricedChoices(all: readonly Choice[], { system }: Estimate, { station }: Demand, demands: Demands): Choice[] {
  const shooting = demands.all.map((demand) => ({ station: demand.station, cost: shotsOf(demand) }));
  return all
    .filter((choice) => choice.cost > 0 && choice.cost <= COST.most)
    .map((choice) => ({ ...choice, cost: choice.cost + shotAgain(choice, system, shooting, station) }))
    .sort((one, other) => one.cost - other.cost);
}

/** Cost of all shots of a station. */
function shotsOf({ station, limits }: Demand): number {
  return COST.shot * (placesNeeded(station).length + (limits.plumb === undefined ? 0 : 2));
}

/** Cost of the shots of the target and of each station whose marks the choice moves. */
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

/** All combinations of two sets of choices. */
export function combined(some: readonly Choice[], others: readonly Choice[]): Choice[] {
  return some.flatMap((choice) =>
    others.map((other) => ({ adjusters: [...choice.adjusters, ...other.adjusters], cost: choice.cost + other.cost })),
  );
}
