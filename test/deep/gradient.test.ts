/** Derivatives of a mark against finite differences of the trace; the trace itself is verified in trace.test.ts. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  differentiate,
  hit,
  type Departure,
  type Gradient,
  type Setting,
  type Vector,
} from '../../src/optics/index.ts';
import { machine } from '../optics/random-machine.ts';
import { drawn, runs } from '../support/amount.ts';

const STEP = 1e-4;
/** mm per mm, or mm per unit slope over metres of path: a central difference is good to a millionth of the largest. */
const AGREES = 2e-5;

test('random machines, every station, on the tape and below it', () => {
  let compared = 0;
  fc.assert(
    fc.property(machine, fc.constantFrom(0, 120), ({ layout, setting, carriages }, height) => {
      layout.elements.forEach((_, station) => {
        const result = differentiate(layout, setting, carriages, station, height);
        const plain = hit(layout, setting, carriages, station, height);
        expect(result === undefined).toBe(plain === undefined);
        if (!result || !plain) return;
        expect([result.right, result.up]).toEqual([expect.closeTo(plain.right, 9), expect.closeTo(plain.up, 9)]);
        for (const { name, of, changed } of changes(setting, station)) {
          const [more, less] = [STEP, -STEP].map((by) => hit(layout, changed(by), carriages, station, height));
          if (!more || !less) continue;
          const by = [(more.right - less.right) / (2 * STEP), (more.up - less.up) / (2 * STEP)];
          const size = Math.max(1, Math.hypot(by[0]!, by[1]!));
          const off = Math.hypot(of(result.byRight) - by[0]!, of(result.byUp) - by[1]!) / size;
          expect(off, `${name} at ${station}`).toBeLessThan(AGREES);
          compared++;
        }
      });
    }),
    drawn(150),
  );
  console.log(`${compared} derivatives compared`);
  expect(compared).toBeGreaterThan(runs(5000));
});

function changes(setting: Setting, station: number) {
  const tube = (['right', 'up', 'turnRight', 'turnUp'] as const).map((part) => ({
    name: `tube ${part}`,
    of: ({ tube: by }: Gradient) => by[part],
    changed: (by: number): Setting => ({ ...setting, tube: { ...setting.tube, [part]: setting.tube[part] + by } }),
  }));
  const withElement = (element: number, change: (before: Departure) => Departure): Setting => ({
    ...setting,
    mirrors: setting.mirrors.map((one, k) => (k === element ? change(one) : one)),
  });
  const elements = Array.from({ length: station + 1 }, (_, element) => [
    ...(['piston', 'right', 'up'] as const).map((part) => ({
      name: `pose ${part} of ${element}`,
      of: ({ poses }: Gradient) => poses[element]![part],
      changed: (by: number) =>
        withElement(element, ({ pose, shift }) => ({ pose: { ...pose, [part]: pose[part] + by }, shift })),
    })),
    ...[0, 1, 2].map((axis) => ({
      name: `shift ${axis} of ${element}`,
      of: ({ shifts }: Gradient) => shifts[element]![axis]!,
      changed: (by: number) =>
        withElement(element, ({ pose, shift }) => ({
          pose,
          shift: shift.map((part, k) => (k === axis ? part + by : part)) as unknown as Vector,
        })),
    })),
  ]).flat();
  return [...tube, ...elements];
}
