/** Extreme inputs: unknown results are reported as unknown, and every number is finite. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { diameterOn, lightOf } from '../../src/light/index.ts';
import type { Evaluation, Machine, StationReport } from '../../src/model/index.ts';
import { drawn, runs } from '../support/amount.ts';

const absurd = fc.oneof(
  fc.constantFrom(0, -0, -1, 1e-300, 1e300, Infinity, -Infinity, NaN, Number.MAX_VALUE, Number.MIN_VALUE),
  fc.double(),
);
const hostile = fc.oneof(
  { weight: 1, arbitrary: absurd },
  { weight: 9, arbitrary: fc.double({ min: 1e-3, max: 1e4, noNaN: true }) },
);
const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined, freq: 4 });
const quantity = fc
  .record({ value: hostile, u: maybe(hostile) })
  .map(({ value, u }) => ({ value, ...(u !== undefined && { u }) }));

const element = fc.record(
  {
    kind: fc.constantFrom('mirror', 'lens', 'station'),
    leg: maybe(quantity),
    stops: maybe(fc.dictionary(fc.constantFrom('near', 'far', '__proto__', 'constructor'), quantity)),
    aperture: hostile,
    inset: hostile,
    sends: maybe(fc.constantFrom('left', 'front', 'down', 'up')),
    focal: maybe(quantity),
    shape: maybe(fc.constantFrom('plano-convex', 'meniscus', 'biconvex')),
    material: maybe(fc.constantFrom('ZnSe', 'GaAs', '')),
  },
  { requiredKeys: [] },
);

const machines = fc
  .record({
    wavelength: fc.oneof(fc.constant(0.0106), hostile),
    power: maybe(quantity),
    beam: maybe(fc.record({ diameter: quantity, divergence: maybe(quantity), M2: maybe(quantity) })),
    pulse: maybe(hostile),
    path: fc.array(element, { maxLength: 5 }),
  })
  .map(
    ({ pulse, path, wavelength, power, beam }) =>
      ({
        ...(pulse !== undefined && { pulse: { time: pulse } }),
        source: { wavelength, power, beam, fires: 'left' },
        path: path.map((one, k) => ({ ...one, name: `E${k}` })),
      }) as unknown as Machine,
  );

const reading = fc.record({
  right: maybe(hostile),
  up: maybe(hostile),
  u: hostile,
  height: fc.constantFrom(0, 50),
  none: fc.boolean(),
  carriages: fc.constant({}),
});
const evaluations = fc
  .array(
    fc.record({
      name: fc.constantFrom('E0', 'E1', 'E2', 'E3'),
      readings: fc.array(reading, { maxLength: 3 }),
      slope: maybe(fc.record({ right: hostile, up: hostile, u: fc.record({ right: hostile, up: hostile }) })),
    }),
    { maxLength: 4 },
  )
  .map(
    (stations) =>
      ({ stations: stations as unknown as readonly StationReport[] }) satisfies Pick<Evaluation, 'stations'>,
  );

test('any inputs give finite numbers or a reason for their absence', () => {
  const tally = { known: 0, unknown: 0 };
  fc.assert(
    fc.property(machines, evaluations, (machine, evaluation) => {
      const result = lightOf(machine, evaluation);
      JSON.stringify(result, (key, value: unknown) => {
        if (typeof value === 'number') expect(Number.isFinite(value), key).toBe(true);
        return value;
      });
      for (const { lost, stations } of result.corners)
        for (const share of [lost, ...stations.map((one) => one.lost)])
          expect(share >= -1e-12 && share <= 1 + 1e-12).toBe(true);
      if (!result.beam) expect(result.lacks.map(({ say }) => say).join()).toContain('cannot be computed');
      for (const { name } of machine.path) expect(diameterOn(machine, name, {}) ?? 0).toSatisfy(Number.isFinite);
      tally[result.beam ? 'known' : 'unknown']++;
    }),
    drawn(500),
  );
  console.log(`${tally.known} beams known, ${tally.unknown} not`);
  expect(Math.min(tally.known, tally.unknown)).toBeGreaterThan(runs(30));
});
