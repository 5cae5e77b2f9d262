/**
 * The standard normal distribution.
 *
 * Two published rational approximations: they are fast enough for the planner's loops (some tens of nanoseconds) and
 * have full *relative* accuracy in both tails, as the probability of an outlier needs. The coefficients are from memory
 * of the two papers; the tests compare them with independent implementations. Arguments are in standard deviations,
 * without unit. Relative error below 1e-14 for |x| ≤ 37; beyond −38 the result is 0.
 */

const INVERSE_ROOT_TWO_PI = 0.398942280401432677939946059934;

const CENTRE = [
  0.065682337918207449113, 2.2352520354606839287, 161.02823106855587881, 1067.6894854603709582, 18154.981253343561249,
];
const CENTRE_BELOW = [1, 47.20258190468824187, 976.09855173777669322, 10260.932208618978205, 45507.789335026729956];
const FLANK = [
  1.0765576773720192317e-8, 0.39894151208813466764, 8.8831497943883759412, 93.506656132177855979, 597.27027639480026226,
  2494.5375852903726711, 6848.1904505362823326, 11602.651437647350124, 9842.7148383839780218,
];
const FLANK_BELOW = [
  1, 22.266688044328115691, 235.38790178262499861, 1519.377599407554805, 6485.558298266760755, 18615.571640885098091,
  34900.952721145977266, 38912.003286093271411, 19685.429676859990727,
];
const TAIL = [
  0.02307344176494017303, 0.21589853405795699, 0.1274011611602473639, 0.022235277870649807, 0.001421619193227893466,
  2.9112874951168792e-5,
];
const TAIL_BELOW = [
  1, 1.28426009614491121, 0.468238212480865118, 0.0659881378689285515, 0.00378239633202758244, 7.29751555083966205e-5,
];

/**
 * P(Z ≤ x). Source: W. J. Cody, Math. Comp. 23 (1969) 631, rational Chebyshev approximations for the error function.
 */
export function normalCdf(x: number): number {
  if (Number.isNaN(x)) return NaN;
  const size = Math.abs(x);
  if (size <= 0.67448975) {
    const square = x * x;
    return 0.5 + (x * polynomial(CENTRE, square)) / polynomial(CENTRE_BELOW, square);
  }
  const tail = upperTail(size);
  return x < 0 ? tail : 1 - tail;
}

/** P(low ≤ Z ≤ high) without cancellation when both lie in one tail; 0 when high ≤ low. */
export function normalBetween(low: number, high: number): number {
  if (high <= low) return 0;
  return low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
}

/** The standard normal density at x. */
export function normalDensity(x: number): number {
  return INVERSE_ROOT_TWO_PI * gaussian(x);
}

/** P(Z > size) for size > 0.67. */
function upperTail(size: number): number {
  if (size > 38.6) return 0;
  if (size <= 5.656854249492381) return (gaussian(size) * polynomial(FLANK, size)) / polynomial(FLANK_BELOW, size);
  const inverse = 1 / (size * size);
  const correction = (inverse * polynomial(TAIL, inverse)) / polynomial(TAIL_BELOW, inverse);
  return (gaussian(size) * (INVERSE_ROOT_TWO_PI - correction)) / size;
}

/** exp(−x²/2), with x² split so that its rounding is not multiplied by its size (Cody's device). */
function gaussian(x: number): number {
  const coarse = Math.trunc(x * 16) / 16;
  return Math.exp((-coarse * coarse) / 2) * Math.exp((-(x - coarse) * (x + coarse)) / 2);
}

/** Highest power first. */
function polynomial(coefficients: readonly number[], x: number): number {
  let value = 0;
  for (let power = 0; power < coefficients.length; power++) value = value * x + coefficients[power]!;
  return value;
}

const QUANTILE_CENTRE = [
  2509.0809287301226727, 33430.575583588128105, 67265.770927008700853, 45921.953931549871457, 13731.693765509461125,
  1971.5909503065514427, 133.14166789178437745, 3.387132872796366608,
];
const QUANTILE_CENTRE_BELOW = [
  5226.495278852545925, 28729.085735721942674, 39307.89580009271061, 21213.794301586595867, 5394.1960214247511077,
  687.1870074920579083, 42.313330701600911252, 1,
];
const QUANTILE_FLANK = [
  7.7454501427834140764e-4, 0.0227238449892691845833, 0.24178072517745061177, 1.27045825245236838258,
  3.64784832476320460504, 5.7694972214606914055, 4.6303378461565452959, 1.42343711074968357734,
];
const QUANTILE_FLANK_BELOW = [
  1.05075007164441684324e-9, 5.475938084995344946e-4, 0.0151986665636164571966, 0.14810397642748007459,
  0.68976733498510000455, 1.6763848301838038494, 2.05319162663775882187, 1,
];
const QUANTILE_TAIL = [
  2.01033439929228813265e-7, 2.71155556874348757815e-5, 0.0012426609473880784386, 0.026532189526576123093,
  0.29656057182850489123, 1.7848265399172913358, 5.4637849111641143699, 6.6579046435011037772,
];
const QUANTILE_TAIL_BELOW = [
  2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5, 7.868691311456132591e-4,
  0.0148753612908506148525, 0.13692988092273580531, 0.59983220655588793769, 1,
];

/**
 * x with P(Z ≤ x) = p; −Infinity at 0, Infinity at 1, NaN outside.
 * Source: M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477.
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return NaN;
  if (p === 0 || p === 1) return p === 0 ? -Infinity : Infinity;
  const fromMiddle = p - 0.5;
  if (Math.abs(fromMiddle) <= 0.425) {
    const r = 0.180625 - fromMiddle * fromMiddle;
    return (fromMiddle * polynomial(QUANTILE_CENTRE, r)) / polynomial(QUANTILE_CENTRE_BELOW, r);
  }
  const depth = Math.sqrt(-Math.log(Math.min(p, 1 - p)));
  const size =
    depth <= 5
      ? polynomial(QUANTILE_FLANK, depth - 1.6) / polynomial(QUANTILE_FLANK_BELOW, depth - 1.6)
      : polynomial(QUANTILE_TAIL, depth - 5) / polynomial(QUANTILE_TAIL_BELOW, depth - 5);
  return fromMiddle < 0 ? -size : size;
}
