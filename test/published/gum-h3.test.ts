/**
 * The calibration of a thermometer, the worked straight line of the GUM: JCGM 100:2008, annex H.3, tables H.6 and H.7.
 *
 * Data and results were read in the documentation of MSLNZ/GTC (page GUM_H3), which states that its results agree with
 * the GUM's; the long digits are a refit of the same data with 40 digits.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { uncertain } from '../../src/history/meter.ts';
import { fromRows, leastSquares, lineFit, studentQuantile, type Line } from '../../src/statistics/index.ts';

const rows = readFileSync(new URL('./data/gum-h3.csv', import.meta.url), 'utf8')
  .trim()
  .split(/\r?\n/)
  .slice(1)
  .map((row) => row.split(',').map(Number));
const temperature = rows.map((row) => row[1]!);
const correction = rows.map((row) => row[2]!);

/** b(t) = y₁ + y₂ (t − t₀). */
function calibration(reference: number): Line {
  const fit = lineFit(
    temperature.map((t) => t - reference),
    correction,
  );
  if (fit.slope === undefined) throw new Error(fit.reason);
  return fit;
}

const expectRelative = (result: number, expected: number, tolerance: number) =>
  expect(Math.abs(result / expected - 1)).toBeLessThan(tolerance);

describe('JCGM 100:2008 H.3, t₀ = 20 °C', () => {
  const fit = calibration(20);
  const { covariance } = fit;

  test('eleven readings', () => expect(rows).toHaveLength(11));

  test('as reported: y₁ −0.1712(29), y₂ 0.00218(67), r −0.930, b(30 °C) −0.1494(41)', () => {
    expect(fit.intercept.toFixed(4)).toBe('-0.1712');
    expect(Math.sqrt(covariance.intercept).toFixed(4)).toBe('0.0029');
    expect(fit.slope.toFixed(5)).toBe('0.00218');
    expect(Math.sqrt(covariance.slope).toFixed(5)).toBe('0.00067');
    expect((covariance.both / Math.sqrt(covariance.intercept * covariance.slope)).toFixed(2)).toBe('-0.93');
    expect(fit.at(10).value.toFixed(4)).toBe('-0.1494');
    expect(fit.at(10).u.toFixed(4)).toBe('0.0041');
  });

  test('to all digits', () => {
    expectRelative(fit.intercept, -0.17120379013135, 1e-12);
    expectRelative(Math.sqrt(covariance.intercept), 0.00287759783515995, 1e-10);
    expectRelative(fit.slope, 0.00218269773988728, 1e-11);
    expectRelative(Math.sqrt(covariance.slope), 0.000667938773227832, 1e-10);
    expectRelative(covariance.both / Math.sqrt(covariance.intercept * covariance.slope), -0.930429603093446, 1e-10);
    expectRelative(fit.at(10).value, -0.149376812732477, 1e-10);
    expectRelative(fit.at(10).u, 0.00413859575285495, 1e-10);
  });

  test('residual sum of squares as on the documentation page, s as computed independently', () => {
    expectRelative(fit.chiSquare, 0.000110096583109, 1e-11);
    expectRelative(Math.sqrt(fit.chiSquare / fit.degreesOfFreedom), 0.00349756396350529, 1e-10);
    expect(fit.degreesOfFreedom).toBe(9);
  });
});

describe('H.3.5, the choice of t₀', () => {
  test('about the mean temperature intercept and slope are uncorrelated (computed independently)', () => {
    const fit = calibration(temperature.reduce((sum, t) => sum + t, 0) / 11);
    expectRelative(fit.intercept, -0.162454545454545, 1e-10);
    expectRelative(Math.sqrt(fit.covariance.intercept), 0.00105455521338321, 1e-10);
    expect(Math.abs(fit.covariance.both)).toBeLessThan(1e-15);
  });

  test('no choice changes the slope, nor a prediction and its uncertainty', () => {
    const plain = calibration(20);
    fc.assert(
      fc.property(fc.double({ min: -300, max: 300, noNaN: true }), (reference) => {
        const fit = calibration(reference);
        expectRelative(fit.slope, plain.slope, 1e-10);
        expectRelative(fit.at(30 - reference).value, plain.at(10).value, 1e-10);
        expectRelative(fit.at(30 - reference).u, plain.at(10).u, 1e-10);
      }),
    );
  });
});

describe('H.3.6, an uncertainty common to all readings', () => {
  // The 0.005 is the documentation page's own choice, as are the results. The offset is one more unknown, known to be 0
  // ± 0.005.
  const s = Math.sqrt(calibration(20).chiSquare / 9);
  const design = [...temperature.map((t) => [1, t - 20, 1]), [0, 0, 1]];
  const fit = leastSquares(fromRows(design), [...correction, 0], [...correction.map(() => s), 0.005]);

  test('widens the intercept and leaves the slope', () => {
    expectRelative(Math.sqrt(fit.covariance.data[0]!), 0.00576893138292676, 1e-9);
    expectRelative(Math.sqrt(fit.covariance.data[4]!), Math.sqrt(calibration(20).covariance.slope), 1e-9);
    expect(fit.rank).toBe(3);
  });

  /**
   * The same budget given to what states the uncertainty of power: a scattering part of 9 degrees of freedom, a common
   * one that is known.
   */
  test('effective degrees of freedom 145.38 by Welch and Satterthwaite, as on the page: 95 % is 1.97641613 u (computed independently)', () => {
    const reading = { readings: [1], mean: 1 };
    const budget = { repeat: calibration(20).covariance.intercept, freedom: 9, placing: 0.005 ** 2 };
    const { u, expanded } = uncertain({ value: 1, by: new Map([[reading, 1]]) }, budget);
    expectRelative(u, 0.00576893138292676, 1e-9);
    expectRelative(expanded / u, 1.9764161317, 1e-9);
    expectRelative(expanded / u, studentQuantile(0.975, 145.37964721007157), 1e-9);
  });
});
