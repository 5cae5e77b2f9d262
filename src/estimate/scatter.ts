/**
 * Why marks scatter: the reading alone, a reading worse than declared, or one part that is loose and moves between
 * shots. Each is a hypothesis with a prior probability; each marks cell adds its log likelihood. A loose part affects
 * only the stations after it, in proportion to the leg; a bad reading affects all.
 *
 * Reading noise as a factor on the declared standard uncertainty; looseness as a standard deviation of either tilt,
 * rad, of a tube also of either offset, mm: a tube that is loose in its holders shows on the first mirror already.
 */
import { chiSquareUpper, type Matrix, entry, variance } from '../statistics/index.ts';
import { GATE_PROBABILITY, type Innovation } from './innovation.ts';
import type { LoggedReading } from './logged-reading.ts';
import { TUBE, type System } from '../machine/index.ts';

/** Index of the tube, which comes before the first element. */
const TUBE_INDEX = -1;

interface Hypothesis {
  readonly noise: number;
  /** Index of the loose element, `TUBE_INDEX` for the tube; absent if none is loose. */
  readonly loose?: number;
  /** Index of the first of the two unknowns that then differ at every shot: two tilts, or two offsets of the tube. */
  readonly unknown?: number;
  /** Rad; of offsets mm. */
  readonly amount: number;
  readonly logPrior: number;
}

/**
 * Factors on the declared reading uncertainty and their prior probabilities: rarely twice, hardly ever three or four
 * times. Common practice, no source.
 */
const NOISE = [
  [1, 0.909],
  [1.4, 0.06],
  [2, 0.03],
  [3, 0.0008],
  [4, 0.0002],
] as const;

/** Prior probabilities that a mirror, or the tube in its two holders, is loose. Common practice, no source. */
const LOOSE = 0.01;
const LOOSE_TUBE = 0.0025;
const LOOSE_OFFSET = 0.0002;
const TILTS = [0.0004, 0.0008, 0.0016, 0.0032, 0.0064] as const;
/** mm: a smaller offset, which is equal at every station, cannot be distinguished from a bad reading. */
const OFFSETS = [4] as const;

function hypotheses(system: System): readonly Hypothesis[] {
  const noise = NOISE.map(
    ([factor, probability]): Hypothesis => ({ noise: factor, amount: 0, logPrior: Math.log(probability) }),
  );
  const loose = [TUBE_INDEX, ...system.mirrors].flatMap((part) =>
    TILTS.map(
      (amount): Hypothesis => ({
        noise: 1,
        loose: part,
        unknown: tiltIndex(system, part),
        amount,
        logPrior: Math.log((part === TUBE_INDEX ? LOOSE_TUBE : LOOSE) / TILTS.length),
      }),
    ),
  );
  const offset = OFFSETS.map(
    (amount): Hypothesis => ({
      noise: 1,
      loose: TUBE_INDEX,
      unknown: OFFSET_INDEX,
      amount,
      logPrior: Math.log(LOOSE_OFFSET / OFFSETS.length),
    }),
  );
  return [...noise, ...loose, ...offset];
}

/** Log likelihoods in the order of `hypotheses`. */
export type Evidence = Float64Array;

export function noEvidence(system: System): Evidence {
  return new Float64Array(hypothesesFor(system).length);
}

/** Fraction of marks that are misread, anywhere on a tape; common practice, no source. */
const MISREAD = 0.03;
/** mm that a tape reaches past its aperture: it is not cut to size. */
export const PAST = 3;

/** Log density of a misread mark, which is anywhere on its tape, by the number of its measured coordinates. */
export function anywhere({ stations }: System, { station }: LoggedReading, parts: number): number {
  return Math.log(MISREAD) - parts * Math.log(stations[station]!.element.aperture + 2 * PAST);
}

/**
 * Adds the evidence of a cell, one mark at a time, by the covariance of its own innovation. Marks of one cell have the
 * error of the machine in common, so they look more alike than they are; a scatter that matters is much larger than
 * that.
 */
export function addEvidence(before: Evidence, system: System, innovation: Innovation): Evidence {
  const all = hypothesesFor(system);
  const logLikelihoods = before.slice();
  for (const group of innovation.groups) {
    const reading = innovation.readings[group.readings[0]!]!;
    // Marks on a tape on the bed are correlated by their tape. The marks of the station are enough.
    if (reading.height > 0) continue;
    const cost = anywhere(system, reading, group.rows.length);
    const costOfTwo = misreadOfTwo(system, reading);
    const mark = markOf(innovation, group.rows);
    let axes = NO_AXES;
    all.forEach(({ noise, unknown, amount }, k) => {
      // The hypotheses of a part stand together.
      if (unknown !== undefined && unknown !== all[k - 1]!.unknown)
        axes = axesOf(innovation.jacobian, unknown, group.rows);
      logLikelihoods[k]! +=
        Math.max(cost, logDensity(mark, noise ** 2, amount ** 2, axes)) +
        Math.max(costOfTwo, logScatter(reading, noise, amount, axes));
    });
  }
  return logLikelihoods;
}

/**
 * Right and up of one innovation, mm, with the variances of its prediction and of reading, and their covariances, mm².
 */
interface Mark {
  readonly off: readonly number[];
  readonly predicted: readonly [number, number, number];
  readonly read: readonly [number, number, number];
}

/** The variance of right, the covariance and the variance of up that a loose part adds, per rad² or mm². */
type Axes = readonly [number, number, number];
const NO_AXES: Axes = [0, 0, 0];

function markOf({ residuals, predicted, noise }: Innovation, rows: readonly number[]): Mark {
  const [one, other] = rows as [number, number?];
  const part = (covariance: Matrix): [number, number, number] => [
    variance(covariance, one),
    other === undefined ? 0 : entry(covariance, one, other),
    other === undefined ? 0 : variance(covariance, other),
  ];
  return { off: rows.map((row) => residuals[row]!), predicted: part(predicted), read: part(noise) };
}

function axesOf(jacobian: Matrix, from: number, [one, other]: readonly number[]): Axes {
  return [
    along(jacobian, from, one!, one!),
    other === undefined ? 0 : along(jacobian, from, one!, other),
    other === undefined ? 0 : along(jacobian, from, other, other),
  ];
}

const LOG_2_PI = Math.log(2 * Math.PI);

function logDensity({ off: [x = 0, y], predicted, read }: Mark, noise: number, loose: number, axes: Axes): number {
  const entry = (k: 0 | 1 | 2) => predicted[k] + noise * read[k] + loose * axes[k];
  const [xx, xy, yy] = [entry(0), entry(1), entry(2)];
  if (y === undefined) return -(LOG_2_PI + Math.log(xx) + x ** 2 / xx) / 2;
  const determinant = xx * yy - xy ** 2;
  return -(2 * LOG_2_PI + Math.log(determinant) + (yy * x ** 2 - 2 * xy * x * y + xx * y ** 2) / determinant) / 2;
}

const hypothesisCache = new WeakMap<System, readonly Hypothesis[]>();

function hypothesesFor(system: System): readonly Hypothesis[] {
  const cached = hypothesisCache.get(system) ?? hypotheses(system);
  hypothesisCache.set(system, cached);
  return cached;
}

/** Index of the two offsets of the tube among the unknowns. */
const OFFSET_INDEX = 0;

/** Index of the two tilts of a part among the unknowns. */
function tiltIndex({ unknowns, mirrors }: System, part: number): number {
  return part === TUBE_INDEX ? 2 : unknowns.pose(mirrors.indexOf(part)) + 1;
}

function along(jacobian: Matrix, from: number, row: number, other: number): number {
  return (
    entry(jacobian, row, from) * entry(jacobian, other, from) +
    entry(jacobian, row, from + 1) * entry(jacobian, other, from + 1)
  );
}

/**
 * Log density if one of two marks of one shot is misread, on the scale of `logScatter`, which leaves out the constants
 * of the normal density.
 */
function misreadOfTwo(system: System, reading: LoggedReading): number {
  return reading.scatter?.count === 2 ? Math.log(2) + anywhere(system, reading, 2) + LOG_2_PI : -Infinity;
}

/** Log density of the deviations of several marks of one shot from their mean, without constants. */
function logScatter({ scatter }: LoggedReading, noise: number, loose: number, axes: Axes): number {
  if (!scatter) return 0;
  return (
    [
      [scatter.right, axes[0]],
      [scatter.up, axes[2]],
    ] as const
  ).reduce((sum, [squares, by]) => {
    const variance = (noise * scatter.u) ** 2 + loose ** 2 * by;
    return sum - ((scatter.count - 1) * Math.log(variance) + squares / variance) / 2;
  }, 0);
}

export function partName({ stations }: Pick<System, 'stations'>, part: number): string {
  return part === TUBE_INDEX ? TUBE : stations[part]!.name;
}

/** The probable cause of scatter. */
export interface Cause {
  /** Probability that some part is loose, and the parts that may be, the most probable first. */
  readonly loose: number;
  readonly parts: readonly number[];
  /** The most probable factor on the reading uncertainty, and the probability that it is above 1. */
  readonly noise: number;
  readonly worse: number;
}

export function likelyCause(evidence: Evidence, system: System): Cause {
  const all = hypothesesFor(system);
  const logs = all.map(({ logPrior }, k) => logPrior + evidence[k]!);
  const most = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const probability = (is: (hypothesis: Hypothesis) => boolean) =>
    weights.reduce((sum, weight, k) => (is(all[k]!) ? sum + weight : sum), 0) / total;
  const likeliest = (is: (hypothesis: Hypothesis) => boolean) =>
    all
      .filter(is)
      .reduce((best, hypothesis) => (logs[all.indexOf(hypothesis)]! > logs[all.indexOf(best)]! ? hypothesis : best));
  return {
    loose: probability(({ loose }) => loose !== undefined),
    parts: likelyParts(all, weights),
    noise: likeliest(({ loose }) => loose === undefined).noise,
    worse: probability(({ loose, noise }) => loose === undefined && noise > 1),
  };
}

/** A part with a smaller fraction of the probability is not named. */
const WORTH_NAMING = 0.15;

function likelyParts(all: readonly Hypothesis[], weights: readonly number[]): number[] {
  const probabilities = new Map<number, number>();
  all.forEach(({ loose }, k) => {
    if (loose !== undefined) probabilities.set(loose, (probabilities.get(loose) ?? 0) + weights[k]!);
  });
  const total = [...probabilities.values()].reduce((sum, one) => sum + one, 0);
  return [...probabilities]
    .filter(([, one]) => one >= WORTH_NAMING * total)
    .sort((one, other) => other[1] - one[1])
    .map(([part]) => part);
}

/** Whether two marks of one place, with nothing moved in between, differ by more than reading explains. */
export function differ(one: LoggedReading, other: LoggedReading): boolean {
  const parts = (['right', 'up'] as const).filter((part) => one[part] !== undefined && other[part] !== undefined);
  const chiSquare = parts.reduce(
    (sum, part) => sum + (one[part]! - other[part]!) ** 2 / (one.u ** 2 + other.u ** 2),
    0,
  );
  return parts.length > 0 && chiSquareUpper(chiSquare, parts.length) < GATE_PROBABILITY;
}

/** Whether the marks of one shot scatter by more than reading explains. */
export function scatters({ scatter }: LoggedReading): boolean {
  if (!scatter) return false;
  return chiSquareUpper((scatter.right + scatter.up) / scatter.u ** 2, 2 * (scatter.count - 1)) < GATE_PROBABILITY;
}
