/**
 * The simpler move that a person may expect instead of the advised one, and why it is not advised: one screw instead of
 * two; the screws of the mirror just before the station instead of earlier ones; angles alone instead of a shift.
 */
import { PROBABILITY, UTILISATION } from './costs.ts';
import type { Requirement } from '../model/index.ts';
import { moveOf, NOTHING, steering, type Choice } from './adjusters.ts';
import { bestAmounts, leastSquaresAmounts, worstNow, type Amounts } from './amounts.ts';
import { propagate, type Estimate } from '../estimate/index.ts';
import { demandQueries, measures, Demands, probabilityAfter, type Demand } from '../verdict/index.ts';
import { Effects } from './effects.ts';
import { marksAt, type Move } from '../machine/index.ts';
import { combined, type Plan } from './plan.ts';

/** A simpler move, and what it would leave. */
export interface SimplerMove {
  readonly kind: 'one screw' | 'last mirror' | 'angles';
  /** The mirror just before the station. */
  readonly part: string;
  /** The worst limit that would still be exceeded; absent if none is, but with a lower probability. */
  readonly remaining?: Remaining;
  /** The probability that everything up to the station would be within. */
  readonly probability: number;
}

export interface Remaining {
  readonly station: string;
  readonly limit: Requirement['limit'];
  /** mm, rad for plumb */
  readonly value: number;
  readonly max: number;
}

/** @returns undefined if the plan is the simplest move itself, or if the simpler one would do as well */
export function simplerMove(
  estimate: Estimate,
  plan: Plan,
  target: Demand,
  upstream: readonly Demand[],
): SimplerMove | undefined {
  const simpler = simplerChoices(plan, estimate, target);
  const demands = new Demands(upstream, target, []);
  const effects = simpler && Effects.of(estimate, demands);
  if (!effects) return undefined;
  const { kind, part, choices } = simpler;
  const none: Amounts = { adjusters: [], amounts: [], worst: worstNow(effects), score: worstNow(effects) };
  const best = choices.reduce((sofar, { adjusters }) => {
    const candidate = bestAmounts(adjusters, leastSquaresAmounts(adjusters, effects), effects);
    return candidate && candidate.score < sofar.score ? candidate : sofar;
  }, none);
  const move = moveOf(best.adjusters, best.amounts);
  const probability = demands.all.reduce((product, demand) => product * probabilityAfter(demand, estimate, move), 1);
  if (probability > plan.probability - PROBABILITY.clear) return undefined;
  const remaining = remainingAfter(estimate, demands.all, move);
  return { kind, part, probability, ...(remaining && { remaining }) };
}

interface SimplerChoices extends Pick<SimplerMove, 'kind' | 'part'> {
  readonly choices: readonly Choice[];
}

/** Two mirrors control the beam’s offset and direction; earlier ones add nothing. */
const MIRRORS_BACK = 2;

function simplerChoices(
  { adjusters }: Plan,
  { system, hands }: Estimate,
  { station }: Demand,
): SimplerChoices | undefined {
  const before = system.mirrors.filter((mirror) => mirror < station.index).slice(-MIRRORS_BACK);
  const steer = before.map((mirror) =>
    steering(
      hands,
      system.screws.filter((screw) => screw.mirror === mirror),
    ),
  );
  const last = steer.at(-1);
  if (!last) return undefined;
  const part = system.stations[before.at(-1)!]!.name;
  if (adjusters.some(({ kind }) => kind !== 'turn'))
    return { kind: 'angles', part, choices: steer.reduce(combined, [NOTHING]) };
  if (adjusters.some((adjuster) => adjuster.part !== part)) return { kind: 'last mirror', part, choices: last };
  return adjusters.length > 1
    ? { kind: 'one screw', part, choices: last.filter((choice) => choice.adjusters.length === 1) }
    : undefined;
}

/** The limit that the most probable marks exceed most, relative to it; undefined if they exceed none. */
function remainingAfter({ distribution }: Estimate, all: readonly Demand[], move: Move): Remaining | undefined {
  const moved = propagate(distribution, move);
  const open = all.flatMap((demand): Remaining[] => {
    const marks = marksAt(moved, demandQueries(demand));
    const measured = Object.entries(marks ? measures(demand, marks) : {}) as [Requirement['limit'], number][];
    return measured
      .map(([limit, value]) => ({ station: demand.station.name, limit, value, max: demand.limits[limit]! }))
      .filter(({ value, max }) => value > UTILISATION.exceeded * max);
  });
  return open.reduce<Remaining | undefined>(
    (worst, excess) => (worst && worst.value / worst.max >= excess.value / excess.max ? worst : excess),
    undefined,
  );
}
