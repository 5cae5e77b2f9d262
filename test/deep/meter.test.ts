/** The uncertainty of reported power values, against draws and against numerical examples of the GUM. */
import { describe, expect, test } from 'vitest';
import { difference, meter, quotient, uncertain, type Repeats } from '../../src/history/meter.ts';
import { sampleVariance } from '../../src/statistics/index.ts';
import { normalDraws } from '../statistics/random.ts';

const PRIOR = { repeat: 0.02, placing: 0.02 };
const repeats = (...readings: number[]): Repeats => ({
  readings,
  mean: readings.reduce((sum, one) => sum + one, 0) / readings.length,
});
const deviation = (values: readonly number[]) => Math.sqrt(sampleVariance(values)!);

describe('against draws', () => {
  const draw = normalDraws(11);
  const how = meter([], PRIOR);
  const measured = (truth: number, count: number) => {
    const placed = truth * (1 + 0.02 * draw());
    return repeats(...Array.from({ length: count }, () => placed * (1 + 0.02 * draw())));
  };
  const DRAWS = 20_000;

  test('a transmission', () => {
    const drawn = Array.from({ length: DRAWS }, () => quotient(measured(60, 2), measured(80, 3)).value);
    expect(deviation(drawn) / uncertain(quotient(repeats(60, 60), repeats(80, 80, 80)), how).u).toBeCloseTo(1, 1);
  });

  test('the difference of two neighbours, which share the reading between them', () => {
    const drawn = Array.from({ length: DRAWS }, () => {
      const [a, b, c] = [measured(80, 1), measured(60, 1), measured(57, 1)];
      return difference(quotient(c, b), quotient(b, a)).value;
    });
    const [a, b, c] = [repeats(80), repeats(60), repeats(57)];
    const reported = uncertain(difference(quotient(c, b), quotient(b, a)), how).u;
    expect(deviation(drawn) / reported).toBeGreaterThan(0.97);
    expect(deviation(drawn) / reported).toBeLessThan(1.03);
    // Treated as independent the uncertainty is too small, and the draws show it.
    expect(
      Math.hypot(uncertain(quotient(c, b), how).u, uncertain(quotient(b, a), how).u) / deviation(drawn),
    ).toBeLessThan(0.9);
  });

  test('the interval covers values drawn from its own prior at the stated rate', () => {
    let held = 0;
    const rounds = 4000;
    for (let k = 0; k < rounds; k++) {
      // The scatter itself is known to a quarter: χ² with 8 degrees of freedom.
      const scatter =
        0.02 / Math.sqrt(Array.from({ length: 8 }, () => draw() ** 2).reduce((sum, one) => sum + one, 0) / 8);
      const read = (truth: number) => {
        const placed = truth * (1 + 0.02 * draw());
        return repeats(...Array.from({ length: 3 }, () => placed * (1 + scatter * draw())));
      };
      const [above, below] = [read(60), read(80)];
      const { value, expanded } = uncertain(quotient(above, below), meter([above.readings, below.readings], PRIOR));
      if (Math.abs(value - 0.75) <= expanded) held++;
    }
    console.log(`${((100 * held) / rounds).toFixed(1)} % of ${rounds} intervals hold the truth`);
    expect(held / rounds).toBeGreaterThan(0.935);
    expect(held / rounds).toBeLessThan(0.965);
  });
});
