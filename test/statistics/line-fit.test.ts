import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Line, fromRows, leastSquares, lineFit } from '../../src/statistics/index.ts';

function line(x: number[], y: number[], u?: number[]): Line {
  const fit = lineFit(x, y, u);
  if (fit.slope === undefined) throw new Error(fit.reason);
  return fit;
}

const close = (result: number, expected: number, scale = 1) =>
  expect(Math.abs(result - expected)).toBeLessThan(1e-10 * scale);

describe('lineFit', () => {
  test('two stops with a reading uncertainty, by hand', () => {
    const fit = line([100, 600], [1, 3], [0.3, 0.4]);
    close(fit.slope, 0.004);
    close(fit.intercept, 0.6);
    close(fit.covariance.slope, (0.3 ** 2 + 0.4 ** 2) / 500 ** 2);
    close(fit.at(100).value, 1);
    close(fit.at(100).u, 0.3);
    close(fit.at(600).u, 0.4);
    // Extrapolated to the double length, the far mark counts twice and the near one once against.
    close(fit.at(1100).u, Math.hypot(2 * 0.4, 0.3));
    expect(fit.degreesOfFreedom).toBe(0);
    close(fit.chiSquare, 0);
  });

  test('agrees with the general fit', () => {
    const [x, y, u] = [
      [90, 300, 420, 690],
      [0.4, 1.1, 1.3, 2.4],
      [0.2, 0.3, 0.2, 0.5],
    ] as const;
    const fit = line([...x], [...y], [...u]);
    const general = leastSquares(fromRows(x.map((leg) => [1, leg])), y, u);
    close(fit.intercept, general.coefficients[0]!);
    close(fit.slope, general.coefficients[1]!);
    close(fit.covariance.intercept, general.covariance.data[0]!);
    close(fit.covariance.both, general.covariance.data[1]!);
    close(fit.covariance.slope, general.covariance.data[3]!);
    close(fit.chiSquare, general.chiSquare);
    expect(fit.degreesOfFreedom).toBe(general.degreesOfFreedom);
  });

  test('without uncertainties two points leave the scatter unknown, not zero and not NaN', () => {
    const fit = line([-1, 1], [0, 2]);
    expect(fit).toMatchObject({
      slope: 1,
      intercept: 1,
      covariance: { slope: Infinity, intercept: Infinity, both: 0 },
    });
    expect(fit.at(0)).toEqual({ value: 1, u: Infinity });
    expect(line([1, 2], [0, 2]).covariance.both).toBe(-Infinity);
  });

  test('a scaled uncertainty scales the covariance only where it was given', () => {
    const [x, y] = [
      [0, 1, 2, 3],
      [0, 1.1, 1.9, 3.2],
    ];
    close(line(x, y, [2, 2, 2, 2]).covariance.slope, 4 * line(x, y, [1, 1, 1, 1]).covariance.slope);
    // Estimated from the residuals instead: Σr² / (n − 2) in place of u².
    const free = line(x, y);
    close(free.covariance.slope, (free.chiSquare / 2) * line(x, y, [1, 1, 1, 1]).covariance.slope);
  });

  test.each([
    [[], [], 'no readings'],
    [[700], [1], 'all readings at one x'],
    [[700, 700], [1, 2], 'all readings at one x'],
    [[0.1 + 0.2, 0.3, 0.3], [1, 2, 3], 'all readings at one x'],
    [[0, 0], [1, 2], 'all readings at one x'],
  ])('x = %j has no slope', (x, y, reason) =>
    expect(lineFit(x, y)).toEqual({ intercept: undefined, slope: undefined, reason }),
  );

  test('two stops a hair apart still make a line', () =>
    expect(line([700, 700.001], [0, 1]).slope).toBeCloseTo(1000, 3));

  test('wrong lengths and uncertainties are refused', () => {
    expect(() => lineFit([1, 2], [1])).toThrow(RangeError);
    expect(() => lineFit([1, 2], [1, 2], [1])).toThrow(RangeError);
    expect(() => lineFit([1, 2], [1, 2], [1, -1])).toThrow(RangeError);
  });

  const points = fc
    .uniqueArray(fc.integer({ min: -500, max: 900 }), { minLength: 2, maxLength: 8 })
    .chain((x) => fc.tuple(fc.constant(x), array(x.length, -20, 20), array(x.length, 0.1, 2)));

  test('shifting x shifts nothing but the intercept', () =>
    fc.assert(
      fc.property(points, fc.integer({ min: -1000, max: 1000 }), ([x, y, u], shift) => {
        const fit = line(x, y, u);
        const shifted = line(
          x.map((value) => value + shift),
          y,
          u,
        );
        close(shifted.slope, fit.slope);
        close(shifted.at(300 + shift).value, fit.at(300).value, 1e3);
        close(shifted.at(300 + shift).u, fit.at(300).u, 1e3);
        close(shifted.chiSquare, fit.chiSquare, 1 + fit.chiSquare);
      }),
    ));

  test('the order of the points is irrelevant', () =>
    fc.assert(
      fc.property(points, ([x, y, u]) => {
        const fit = line(x, y, u);
        const turned = line(x.toReversed(), y.toReversed(), u.toReversed());
        close(turned.slope, fit.slope);
        close(turned.intercept, fit.intercept, 1e3);
        close(turned.covariance.both, fit.covariance.both, 1e3);
      }),
    ));
});

function array(length: number, min: number, max: number) {
  return fc.array(fc.double({ min, max, noNaN: true }), { minLength: length, maxLength: length });
}
