/**
 * Evenly spread standard normal vectors, and probabilities of Gaussian regions from them.
 *
 * A station passes when *all* its requirements hold, and they are correlated: the probability is an integral over a dozen
 * dimensions of a region without a formula. Pseudo-random draws would make the verdict flicker from run to run and hide a
 * change of one hundredth in noise; a fixed point set gives the same answer for the same state, moves smoothly with it, and
 * is two to three times closer than as many random draws. The set is a rank-1 lattice, taken in an order such that any
 * first 2^k points are a lattice themselves, shifted, then bent by the normal quantile. No state, no seed.
 */
import { type Matrix, matrix } from './matrix.ts';
import { normalQuantile } from './normal.ts';
import { symmetricSquareRoot } from './symmetric-square-root.ts';

/**
 * The lattice's generating vector, one odd number below 2^14 a dimension, found by component-by-component search: of the 200
 * candidates with the best worst two-dimensional projection (2^8 to 2^13 points), the one with the least mean logarithm of
 * the worst-case error for 2^10 to 2^14 points in the Korobov space of smoothness 1 with product weights 1/j. Without the
 * first criterion some late pairs were correlated by 0.3. Method after Cools, Kuo & Nuyens, SIAM J. Sci. Comput. 28 (2006)
 * 2162 (from memory); the numbers are this project's own.
 */
const GENERATOR = [
  1, 4845, 845, 1181, 2571, 5311, 219, 7301, 5861, 3733, 3765, 3479, 3371, 2543, 153, 4793, 5201, 4957, 139, 3383,
  6905, 3407, 6617, 1791, 485, 6917, 2161, 3981, 1803, 3659, 3275, 6065, 4185, 3357, 1767, 2603, 4397, 3971, 6057,
  1167, 3109, 3891, 3945, 3131, 581, 3087, 6821, 1155, 1947, 6591, 4559, 3803, 2557, 5059, 665, 5443, 6807, 7253,
  7333, 7383, 1875, 2115, 8033, 4117,
];

/** Number of dimensions that `quasiNormal` can give. */
export const MOST_DIMENSIONS = GENERATOR.length;

/**
 * A fixed set of `count` standard normal vectors, count × dimension. Best at counts that are powers of two; a smaller set is
 * the beginning of a larger one. Throws a RangeError above MOST_DIMENSIONS.
 */
export function quasiNormal(dimension: number, count: number): Matrix {
  if (dimension > MOST_DIMENSIONS) throw new RangeError(`${dimension} dimensions, at most ${MOST_DIMENSIONS}`);
  const result = matrix(count, dimension);
  for (let row = 0; row < count; row++) {
    const place = reversedBits(row);
    for (let column = 0; column < dimension; column++) {
      // The irrational shift keeps every point off 0, whose quantile is infinite, and off the planes of symmetry, where the
      // bounds of a region like to lie. √3 did as well as any in trials.
      const spread = place * GENERATOR[column]! + (column + 1) * Math.sqrt(3);
      result.data[row * dimension + column] = normalQuantile(spread - Math.floor(spread));
    }
  }
  return result;
}

/**
 * P(inside(x)) for x normal with `mean` (length n) and `covariance` (n × n, may be semi-definite), as the share of the
 * sample's points that are inside. `sample` is a number of points or a set from `quasiNormal(n, …)`, which a caller who
 * asks often makes once. The vector handed to `inside` is overwritten from call to call. With 4096 points in 2 to 12
 * dimensions the error is 0.0025 in the quadratic mean, seldom above 0.006. Undefined when the covariance has a negative direction.
 */
export function gaussianProbability(
  mean: Float64Array,
  covariance: Matrix,
  inside: (x: Float64Array) => boolean,
  sample: number | Matrix = 4096,
): number | undefined {
  const size = mean.length;
  if (covariance.rows !== size) throw new RangeError(`a mean of ${size} with a covariance of ${covariance.rows} rows`);
  const factor = symmetricSquareRoot(covariance);
  if (factor === undefined) return undefined;
  const points = typeof sample === 'number' ? quasiNormal(size, sample) : sample;
  if (points.columns !== size) throw new RangeError(`a sample of ${points.columns} dimensions for ${size}`);
  const x = new Float64Array(size);
  let hits = 0;
  for (let row = 0; row < points.rows; row++) {
    placePoint(x, mean, factor, points, row);
    if (inside(x)) hits++;
  }
  return hits / points.rows;
}

/** x = mean + factor · (the row-th point). */
function placePoint(x: Float64Array, mean: Float64Array, factor: Matrix, points: Matrix, row: number): void {
  const size = x.length;
  for (let index = 0; index < size; index++) {
    let value = mean[index]!;
    for (let column = 0; column < size; column++) {
      value += factor.data[index * size + column]! * points.data[row * size + column]!;
    }
    x[index] = value;
  }
}

/** The binary digits of a whole number mirrored at the point: 0, ½, ¼, ¾, ⅛ … (van der Corput). */
function reversedBits(index: number): number {
  let value = 0;
  let digit = 0.5;
  for (let rest = index; rest > 0; rest = Math.floor(rest / 2)) {
    if (rest % 2 === 1) value += digit;
    digit /= 2;
  }
  return value;
}
