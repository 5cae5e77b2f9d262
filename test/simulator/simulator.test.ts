/** The hidden machine: what it depends on, what moves it, and where its tapes burn. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { LogEntry } from '../../src/model/index.ts';
import { burnAt, burntTape, draws, hiddenMachine, stateAfter, type Burn } from '../../src/simulator/index.ts';
import { machineText } from '../../src/language/practice/levels.ts';
import { imports } from '../house/layers.ts';
import { reader } from '../support/log.ts';

const read = (text: string) => reader.read(text, { file: 'practice.alignbook.yaml', files: new Map() });

function shotAt(seed: number, level: number, cells: readonly string[], station = 'M2', leg = 690): Burn | undefined {
  const { entries } = read([machineText({ seed, level }), ...cells].join('---\n'));
  return burnOf(entries, station, leg);
}

function burnOf(entries: readonly LogEntry[], station: string, leg: number): Burn | undefined {
  const machine = entries.map(({ entry }) => entry).find((entry) => entry.kind === 'machine')!.machine;
  const hidden = hiddenMachine(machine, machine.practice!);
  const at = { station, carriages: { M2: leg, M3: 70 }, height: 0 };
  return burnAt(hidden, stateAfter(hidden, entries), at, [0]);
}

const moved = (before: Burn | undefined, after: Burn | undefined) => {
  if (!before || before.none || !after || after.none) throw new Error('the beam missed');
  return { right: after.right - before.right, up: after.up - before.up };
};

test('it imports the optics and the model, and nothing of the estimate, the verdict or the plan', () => {
  const own = imports().filter(({ from }) => from.startsWith('src/simulator/'));
  const outside = own.filter(({ to }) => !to.startsWith('src/simulator/')).map(({ to }) => to);
  expect([...new Set(outside)].sort()).toEqual(['src/model/index.ts', 'src/optics/index.ts']);
  expect(readdirSync(join('src', 'simulator')).length).toBeGreaterThan(5);
});

test('no function is used whose last digit an engine may choose', () => {
  const files = readdirSync(join('src', 'simulator')).filter((file) => file.endsWith('.ts'));
  const text = files.map((file) => readFileSync(join('src', 'simulator', file), 'utf8')).join('\n');
  expect(text).not.toMatch(/Math\.(?:sin|cos|tan|atan2?|exp|log|pow|hypot|cbrt|random)\b/);
});

describe('draws', () => {
  test('depend on the seed and on what they are for, not on their order', () => {
    const [one, other] = [draws(7), draws(7)];
    other.uniform('something else');
    expect(one.uniform('tilt', 1, 'up')).toBe(other.uniform('tilt', 1, 'up'));
    expect(one.uniform('ab', 'c')).not.toBe(one.uniform('a', 'bc'));
    expect(draws(7).uniform('tilt')).not.toBe(draws(8).uniform('tilt'));
    expect(draws(2 ** 40 + 7).uniform('tilt')).not.toBe(draws(7).uniform('tilt'));
  });

  test('are the same on every machine and in every version', () => {
    const { uniform, normal } = draws(12);
    expect([uniform('tilt', 0, 'right'), uniform(3), normal('hand', 1)]).toMatchInlineSnapshot(`
      [
        0.09191148146055639,
        0.48317498713731766,
        -0.5551972910761833,
      ]
    `);
  });

  test('have the mean and the spread that they are said to have', () => {
    const { uniform, normal } = draws(1);
    const [flat, bell] = [uniform, normal].map((one) => Array.from({ length: 3_000 }, (_, k) => one('x', k)));
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const spread = (values: readonly number[]) => Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)));
    expect(mean(flat!)).toBeCloseTo(0.5, 1);
    expect(spread(flat!)).toBeCloseTo(1 / Math.sqrt(12), 2);
    expect(mean(bell!)).toBeCloseTo(0, 1);
    expect(spread(bell!)).toBeCloseTo(1, 1);
  });
});

describe('the machine is a function of seed and cells', () => {
  const TURN = 'adjust: M1\nturn: {B: in 1/4}\n';

  test('notes, marks and sessions change nothing; an undone turn is undone', () => {
    const bare = shotAt(3, 2, [TURN]);
    expect(shotAt(3, 2, ['note: a thought\n', 'session: later\n', TURN, 'marks: M1\nshots: centre\n'])).toEqual(bare);
    expect(shotAt(3, 2, [])).not.toEqual(bare);
    expect(shotAt(3, 2, [TURN])).toEqual(bare);
  });

  test('another seed and another level are other machines', () => {
    expect(shotAt(4, 2, [])).not.toEqual(shotAt(3, 2, []));
    expect(shotAt(3, 3, [])).not.toEqual(shotAt(3, 2, []));
  });

  test('names are the user’s own: what is hidden does not depend on them', () => {
    const text = machineText({ seed: 3, level: 2 });
    const renamed = text.replaceAll('M2', 'gantry_mirror').replaceAll(/\bB:/g, 'lower:');
    const before = burnOf(read([text, TURN].join('---\n')).entries, 'M2', 690);
    const after = read([renamed, TURN.replace('B:', 'lower:')].join('---\n')).entries;
    const machine = after.map(({ entry }) => entry).find((entry) => entry.kind === 'machine')!.machine;
    const hidden = hiddenMachine(machine, machine.practice!);
    const at = { station: 'gantry_mirror', carriages: { gantry_mirror: 690, M3: 70 }, height: 0 };
    expect(burnAt(hidden, stateAfter(hidden, after), at, [0])).toEqual(before);
  });
});

describe('what moves it', () => {
  test('a turn moves the far mark about as much more than the near one as the leg is longer', () => {
    const turn = 'adjust: M1\nturn: {B: in 1/4}\n';
    const [near, far] = [130, 690].map((leg) => moved(shotAt(5, 2, [], 'M2', leg), shotAt(5, 2, [turn], 'M2', leg)));
    const size = ({ right, up }: { right: number; up: number }) => Math.hypot(right, up);
    expect(size(far!)).toBeGreaterThan(3);
    expect(size(far!) / size(near!)).toBeGreaterThan(3.5);
    expect(size(far!) / size(near!)).toBeLessThan(7);
  });

  test('a tight lock nut holds its screw; loosened, it turns', () => {
    const held = moved(shotAt(5, 3, [], 'M2', 130), shotAt(5, 3, ['adjust: M1\nturn: {B: in 1/4}\n'], 'M2', 130));
    expect(held).toEqual({ right: 0, up: 0 });
    const loose = shotAt(5, 3, ['adjust: M1\nlock: loose\nturn: {B: in 1/4}\n'], 'M2', 130);
    expect(Math.hypot(...Object.values(moved(shotAt(5, 3, [], 'M2', 130), loose)))).toBeGreaterThan(0.3);
  });

  test('a screw that is turned there and back loses its play: it does not return exactly', () => {
    const turns = ['in 1/2', 'out 1/2', 'in 1/2', 'out 1/2'].map((amount) => `adjust: M1\nturn: {B: ${amount}}\n`);
    const back = moved(shotAt(5, 2, turns.slice(0, 2)), shotAt(5, 2, turns));
    expect(Math.hypot(back.right, back.up)).toBeLessThan(1.5);
    expect(back).not.toEqual({ right: 0, up: 0 });
  });

  test('at the first level a knock leaves something to do', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const mark = shotAt(seed, 1, ['event: knocked\n'], 'target');
      if (!mark || mark.none) throw new Error(`the beam of seed ${seed} missed`);
      expect(Math.hypot(mark.right, mark.up)).toBeGreaterThan(2);
    }
  });

  test('what a colleague turned stays as it was, however their cell is corrected', () => {
    const slip = Array.from({ length: 60 }, (_, k) => k).find(
      (seed) => draws(seed).choose([0, 1, 2, 3, 4, 5], 'fault') === 3,
    )!;
    const [one, other] = ['in 1/4', 'out 1/4'].map((amount) =>
      shotAt(slip, 5, [`adjust: M1\nlock: loose\nturn: {A: ${amount}}\nby: rw\n`], 'M2', 130),
    );
    expect(one).toEqual(other);
  });
});

test('the charred core of a burn is the same on opposite sides, whatever its soot does', () => {
  for (let shot = 0; shot < 200; shot++) {
    const burn = { right: 0.01 * (shot - 100), up: 2.5, size: 3 };
    const { core, smoke } = burntTape(draws(9), burn, true, [shot]);
    const middle = (axis: 'right' | 'up') => core.reduce((sum, point) => sum + point[axis], 0) / core.length;
    expect(middle('right')).toBeCloseTo(burn.right, 2);
    expect(middle('up')).toBeCloseTo(burn.up, 2);
    expect(Math.max(...smoke.flat().map(({ up }) => up))).toBeGreaterThan(burn.up + burn.size);
  }
});
