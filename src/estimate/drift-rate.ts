/**
 * How fast an untouched machine drifts: the variance that a day adds to either slope of every mirror and to the tube's
 * direction (rad² a day; a random walk). It is estimated from the intervals between visits in which nothing was
 * touched.
 *
 * Model: the variance is s·σ², σ the prior `driftTilt` and s an unknown factor whose prior is inverse gamma with shape
 * 2 and mean 1: σ is known to a factor of a few only. In an interval of T days a mark moves by a normal amount of
 * covariance s·σ²·T·H Hᵀ (H its derivatives by the slopes, at the nominal layout) plus the variance of two readings.
 * The posterior of s is computed on a grid of its logarithm, and its mean is used: then the predicted variance is that
 * of the mixture (law of total variance). Intervals that end in the same visit are correlated and evaluated together;
 * those of different visits are taken as independent, though a reading may end one and begin the next.
 *
 * A value that the machine cell gives for `driftTilt` is used as it is.
 */
import { lookup, PRIORS, type Machine } from '../model/index.ts';
import { cholesky, entry, fromEntries } from '../statistics/index.ts';
import {
  queryAt,
  sameCarriages,
  isMark,
  points,
  items,
  sensitivity,
  type Sensitivity,
  type System,
} from '../machine/index.ts';
import type { Interval } from './intervals.ts';

/** An estimated drift rate, with its source. */
export interface DriftRate {
  /** rad² a day. */
  readonly variance: number;
  /** Its source: the machine cell, the default prior alone, or also intervals of this log. */
  readonly from: 'written' | 'assumed' | 'learnt';
  /** Number of visits that ended an interval, and the days that these intervals cover. */
  readonly visits: number;
  readonly days: number;
}

/** @param intervalsByVisit grouped by the visit that ended them */
export function driftRate({ priors }: Machine, intervalsByVisit: readonly (readonly Interval[])[]): DriftRate {
  const written = lookup(priors, 'driftTilt');
  const days = intervalsByVisit.reduce(
    (sum, intervals) => sum + Math.max(...intervals.map((interval) => interval.days)),
    0,
  );
  const basis = { visits: intervalsByVisit.length, days };
  if (written !== undefined) return { variance: written ** 2, from: 'written', ...basis };
  return {
    variance: posteriorFactor(intervalsByVisit) * SQUARE,
    from: intervalsByVisit.length > 0 ? 'learnt' : 'assumed',
    ...basis,
  };
}

/** σ² */
const SQUARE = PRIORS.driftTilt.value ** 2;

/** Grid of factors s, two to an octave: from a machine that hardly moves to one that is often knocked. */
const FACTORS = Array.from({ length: 37 }, (_, k) => 2 ** (k / 2 - 6));
/** Inverse gamma of shape 2 and mean 1 as a density of log s: s⁻² e^(−1/s). */
const PRIOR = FACTORS.map((s) => s ** -2 * Math.exp(-1 / s));

const factorCache = new WeakMap<readonly (readonly Interval[])[], number>();

function posteriorFactor(intervalsByVisit: readonly (readonly Interval[])[]): number {
  const before = factorCache.get(intervalsByVisit);
  if (before !== undefined) return before;
  const logs = intervalsByVisit.map(logLikelihood);
  const each = FACTORS.map((_, k) => logs.reduce((sum, log) => sum + log[k]!, 0));
  const most = Math.max(...each);
  const factor = weightedFactor(each.map((log, k) => PRIOR[k]! * Math.exp(log - most))) / weightedFactor(PRIOR);
  factorCache.set(intervalsByVisit, factor);
  return factor;
}

function weightedFactor(weights: readonly number[]): number {
  const sum = (of: readonly number[]) => of.reduce((total, one) => total + one, 0);
  return sum(weights.map((probability, k) => probability * FACTORS[k]!)) / sum(weights);
}

/**
 * One coordinate of one mark: its change, the variance of two readings, and its derivatives by the slopes that drift.
 */
interface Row {
  readonly moved: number;
  readonly read: number;
  readonly by: Float64Array;
  readonly days: number;
}

/** Log likelihood for every factor, up to a constant. */
function logLikelihood(intervals: readonly Interval[]): number[] {
  const rows = intervals.flatMap(markRows);
  const driftCovariance = rows.map((row) =>
    rows.map((other) => Math.min(row.days, other.days) * SQUARE * product(row.by, other.by)),
  );
  return FACTORS.map((factor) => normalLog(rows, driftCovariance, factor));
}

/** −½ log |C| − ½ dᵀ C⁻¹ d, with C = L Lᵀ and z = L⁻¹ d. */
function normalLog(rows: readonly Row[], driftCovariance: readonly (readonly number[])[], factor: number): number {
  const covariance = fromEntries(
    rows.length,
    rows.length,
    (i, k) => factor * driftCovariance[i]![k]! + (i === k ? rows[i]!.read : 0),
  );
  const lower = cholesky(covariance);
  if (!lower) return 0;
  const z: number[] = [];
  let log = 0;
  rows.forEach(({ moved }, i) => {
    const pivot = entry(lower, i, i);
    const rest = z.reduce((remainder, one, k) => remainder - entry(lower, i, k) * one, moved);
    z.push(rest / pivot);
    log -= Math.log(pivot) + (rest / pivot) ** 2 / 2;
  });
  return log;
}

function markRows({ system, days, from, to }: Interval): Row[] {
  const then = points(from).filter(isMark);
  return points(items(to))
    .filter(isMark)
    .flatMap((now): Row[] => {
      const before = then.find((mark) => mark.height === now.height && sameCarriages(mark.carriages, now.carriages));
      // A tape on the bed has no fixed position.
      const derivatives = before && now.height === 0 ? nominal(system, now.first.station, now.carriages) : undefined;
      if (!before || !derivatives) return [];
      const read = before.u ** 2 + now.u ** 2;
      return [
        { moved: now.right - before.right, read, by: driftingSlopes(system, derivatives.byRight), days },
        { moved: now.up - before.up, read, by: driftingSlopes(system, derivatives.byUp), days },
      ];
    });
}

/** The mark of the nominal machine, with its derivatives. */
function nominal(
  system: System,
  station: number,
  carriages: Readonly<Record<string, number>>,
): Sensitivity | undefined {
  return sensitivity(
    { system, values: new Float64Array(system.unknowns.count), shifts: new Map() },
    queryAt(system.stations[station]!, carriages),
  );
}

/** Selects the unknowns that drift: the tube's direction and the slopes of every mirror. */
function driftingSlopes({ mirrors, unknowns }: System, by: Float64Array): Float64Array {
  return Float64Array.from(
    [2, 3, ...mirrors.flatMap((_, order) => [unknowns.pose(order) + 1, unknowns.pose(order) + 2])],
    (index) => by[index]!,
  );
}

function product(one: Float64Array, other: Float64Array): number {
  return one.reduce((sum, value, k) => sum + value * other[k]!, 0);
}
