import { describe, expect, test } from 'vitest';
import { gauss, integrate } from '../../src/statistics/quadrature.ts';
import { relativeError } from './close.ts';

describe('quadrature', () => {
  test.each([0, 1, 2, 15, 30, 31])('one panel is exact for x^%i', (power) =>
    expect(
      relativeError(
        gauss((x) => x ** power, 0, 2),
        2 ** (power + 1) / (power + 1),
      ),
    ).toBeLessThan(1e-14),
  );

  test('and not for x^40: the rule has the order it claims', () =>
    expect(
      relativeError(
        gauss((x) => x ** 40, 0, 2),
        2 ** 41 / 41,
      ),
    ).toBeGreaterThan(1e-14));

  test('a narrow peak is found by halving', () => {
    const width = 1e-3;
    const peak = (x: number) => width / (width * width + (x - 0.3) ** 2);
    expect(relativeError(integrate(peak, -1, 1), Math.atan(0.7 / width) + Math.atan(1.3 / width))).toBeLessThan(1e-12);
  });

  test('a step is found too, with bounded work', () => {
    let calls = 0;
    const step = (x: number) => (calls++, x < 0.123 ? 0 : 1);
    expect(relativeError(integrate(step, 0, 1), 0.877)).toBeLessThan(1e-8);
    expect(calls).toBeLessThan(2000);
  });

  test('what is no number is not halved in the hope of one', () => {
    let calls = 0;
    expect(integrate(() => (calls++, NaN), 0, 1)).toBeNaN();
    expect(calls).toBeLessThan(1000);
  });
});
