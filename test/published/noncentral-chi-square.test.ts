/**
 * Noncentral chi-square, Rice and Marcum Q: the probability that a mark lies within a radius.
 *
 * The table of J. Burkardt and that of Boost.Math are published (see data/PROVENANCE.md). The Rice and Marcum values
 * below were computed independently, three ways that agree: Bessel quadrature and Poisson series with 40 digits, scipy
 * 1.17.1, R 4.2.2.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { discProbability, noncentralChiSquareCdf, riceCdf } from '../../src/statistics/index.ts';

function table(name: string): number[][] {
  const lines = readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/);
  return lines.slice(1).map((line) => line.split(',').map(Number));
}

const expectRelative = (evaluation: number, expected: number, tolerance: number) =>
  expect(Math.abs(evaluation / expected - 1)).toBeLessThan(tolerance);

describe('published tables', () => {
  const burkardt = table('burkardt-ncx2.csv');
  const boost = table('boost-nccs-subset.csv');

  test('all rows are there', () => {
    expect(burkardt).toHaveLength(28);
    expect(boost).toHaveLength(21);
  });

  test.each(burkardt)('Burkardt: df %d, λ %d, x %d', (df, noncentrality, x, expected) =>
    expectRelative(noncentralChiSquareCdf(x!, df!, noncentrality!), expected!, 1e-12),
  );

  test.each(boost)('Boost: df %d, λ %d, x %d', (df, noncentrality, x, expected) =>
    expectRelative(noncentralChiSquareCdf(x!, df!, noncentrality!), expected!, 1e-12),
  );
});

describe('Rice, computed independently', () => {
  const rows: [radius: number, offset: number, expected: number][] = [
    [1, 0, 0.393469340287367],
    [1, 1, 0.26712019620318],
    [1, 2, 0.081892303630594],
    [2, 0, 0.864664716763387],
    [2, 1, 0.73098793996409],
    [2, 2, 0.396499039388007],
    [2, 3, 0.113279245597608],
    [0.5, 0.5, 0.10449141893014],
    [3, 1, 0.956284028421364],
    [3, 2, 0.785637911837351],
    [3, 3, 0.432520237709138],
    [4, 2, 0.965865155068556],
    [5, 3, 0.969322397915978],
    [6, 6, 0.466637517068211],
    [0.1, 3, 5.60314923168341e-5],
    [2.447746830680816, 0, 0.95],
  ];

  test.each(rows)('radius %d, offset %d', (radius, offset, expected) => {
    expectRelative(riceCdf(radius, offset, 1), expected, 1e-10);
    // In another unit, and along another direction.
    expectRelative(riceCdf(radius * 0.3, offset * 0.3, 0.3), expected, 1e-10);
    expectRelative(discProbability([offset * 0.6, offset * -0.8], [1, 0, 1], radius), expected, 1e-10);
    // Nearly equal axes use the general method; its result must be the same.
    expect(Math.abs(discProbability([offset, 0], [1 + 1e-11, 0, 1], radius) - expected)).toBeLessThan(1e-9);
  });

  const marcum: [a: number, b: number, expected: number][] = [
    [1, 1, 0.73287980379682],
    [1, 2, 0.26901206003591],
    [2, 1, 0.918107696369406],
    [2, 2, 0.603500960611993],
    [5, 4, 0.867049795077926],
  ];

  test.each(marcum)('Marcum Q₁(%d, %d)', (a, b, expected) => expectRelative(1 - riceCdf(b, a, 1), expected, 1e-10));

  test.each([0.5, 1, 2, 5, 9])('Q₁(a, a) = ½ (1 + e^−a² I₀(a²)), a = %d', (a) =>
    expectRelative(riceCdf(a, a, 1), (1 - scaledBessel(a * a)) / 2, 1e-10),
  );
});

/**
 * e^−z I₀(z) as the mean of e^(z (cos θ − 1)) over a turn (A&S 9.6.16); equal steps are exact for a periodic function.
 */
function scaledBessel(z: number): number {
  const steps = 400;
  let sum = 0;
  for (let step = 0; step < steps; step++) sum += Math.exp(z * (Math.cos((2 * Math.PI * step) / steps) - 1));
  return sum / steps;
}
