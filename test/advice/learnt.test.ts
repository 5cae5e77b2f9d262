/** Parameters estimated from the marks are reported with the right sign and size, and no others are reported. */
import { Vector3 } from 'three';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../src/evaluation/index.ts';
import type { Learnt, Off } from '../../src/model/index.ts';
import type { Drawn, Priors } from '../simulation/drawn.ts';
import { Logged } from '../simulation/logged.ts';
import { usualPlan, type Plan } from '../simulation/world.ts';
import { LIMITS } from '../support/log.ts';

const PLAN = usualPlan(20);

/** The last leg is too short for an estimate of the third mirror's screws from a few turns. */
const MIRRORS = [0, 1] as const;
const centred = () => [0, 1, 2, 3].map(() => ({ right: 0, up: 0 }));
const still = () => [new Vector3(), new Vector3()];

/** Turns and readings are exact. */
const faulty = (fault: Partial<Drawn> = {}, priors: Priors = {}, plan: Partial<Plan> = {}) =>
  new Logged({ ...PLAN, ...plan }, LIMITS, { fault, priors });
const learntOf = (log: Logged) => evaluate(log.entries).learnt;

/** Some shots of everything, then each screw of one mirror turned to and fro. */
function exercised(machine: Logged, mirror: number): Logged {
  machine.shoot(0, 1, 2, 3);
  for (const [screw, turns] of [
    ['A', 0.5],
    ['A', -0.25],
    ['B', -0.5],
    ['B', 0.25],
    ['A', -0.5],
    ['B', 0.5],
  ] as const)
    machine.turn(mirror, screw, turns).shoot(mirror + 1);
  return machine;
}

function only<Kind extends Learnt['kind']>(learnt: readonly Learnt[], kind: Kind): Extract<Learnt, { kind: Kind }> {
  expect(learnt.map((one) => one.kind)).toEqual([kind]);
  return learnt[0] as Extract<Learnt, { kind: Kind }>;
}

describe('a screw with another effect than its pitch', () => {
  test.each(
    MIRRORS.flatMap((mirror) =>
      ['A', 'B'].flatMap((screw) => [0.6, 0.8, 1.3].map((share) => ({ mirror, screw, share }))),
    ),
  )('$screw of mirror $mirror: $share', ({ mirror, screw, share }) => {
    const machine = faulty();
    const effect = machine.machine.gains[mirror]![screw]!;
    Object.assign(effect, { right: share * effect.right, up: share * effect.up });
    const result = only(learntOf(exercised(machine, mirror)), 'screw');
    expect(result).toMatchObject({ part: `M${mirror + 1}`, screw });
    expect(Math.abs(result.share - share)).toBeLessThan(result.u);
    expect(result.say).toBe(
      `Screw ${screw} (${screw === 'A' ? 'upper left' : 'lower right'}) of M${mirror + 1} has ${Math.round(100 * result.share)} % of the effect of its pitch (± ${Math.ceil(100 * result.u)} %).`,
    );
  });

  test('a screw with the opposite effect, if the workbook’s doubt is large', () => {
    const machine = faulty({}, {}, { doubt: 100 });
    const effect = machine.machine.gains[0]!['B']!;
    Object.assign(effect, { right: -effect.right, up: -effect.up });
    const result = learntOf(exercised(machine, 0))[0]!;
    expect(result.say).toMatch(
      /^Screw B \(lower right\) of M1 works in the opposite direction, with (9\d|100|10\d) % of the effect of its pitch \(± \d %\)\.$/,
    );
  });
});

describe('a screw in an unknown place', () => {
  test.each(MIRRORS.flatMap((mirror) => ['A', 'B', 'C'].map((screw) => ({ mirror, screw }))))(
    '$screw of mirror $mirror',
    ({ mirror, screw }) => {
      const machine = faulty({}, {}, { places: 'unknown' })
        .shoot(0, 1, 2, 3)
        .turn(mirror, screw, 0.25)
        .shoot(mirror + 1);
      const [gantry, head] = mirror === 0 ? (['far', 'near'] as const) : (['near', 'far'] as const);
      const result = only(learntOf(machine), 'effect');
      const before = machine.mark(mirror + 1, gantry, head);
      const then = machine.turn(mirror, screw, result.turns).mark(mirror + 1, gantry, head);
      expect(result).toMatchObject({
        part: `M${mirror + 1}`,
        screw,
        turns: 1 / 8,
        station: `M${mirror + 2}`,
        at: 'far',
        with: mirror === 0 ? {} : { M2: 'near' },
      });
      expect(Math.abs(result.right - then.right + before.right)).toBeLessThan(result.u.right);
      expect(Math.abs(result.up - then.up + before.up)).toBeLessThan(result.u.up);
    },
  );

  test('is reported by the mark that it moves', () => {
    const machine = faulty({}, {}, { places: 'unknown' }).shoot(0, 1).turn(0, 'B', 0.25).shoot(1);
    expect(learntOf(machine)[0]!.say).toMatch(
      /^Screw B of M1: 1\/8 turn in moves the mark on M2 \(gantry far from M1, front\) 2\.\d left \(machine right\) \(± 0\.\d mm\)\.$/,
    );
  });
});

describe('a tube with an offset', () => {
  test.each([
    ['left', { right: 0, up: -4 }, 'down', 'low'],
    ['left', { right: 0, up: 4 }, 'up', 'high'],
    ['left', { right: 4, up: 0 }, 'rear', 'to the rear'],
    ['right', { right: 4, up: 0 }, 'front', 'to the front'],
    ['front', { right: 4, up: 0 }, 'left', 'to the left'],
    ['rear', { right: 4, up: 0 }, 'right', 'to the right'],
    ['up', { right: 4, up: 0 }, 'left', 'to the left'],
    ['up', { right: 0, up: 4 }, 'rear', 'to the rear'],
    ['down', { right: -4, up: 0 }, 'left', 'to the left'],
  ] as const)('fires %s, its exit %o: %s', (fires, { right, up }, toward, words) => {
    const sends =
      fires === 'front' || fires === 'rear'
        ? (['right', 'front', 'down'] as const)
        : (['front', 'right', 'down'] as const);
    const result = only(
      learntOf(faulty({ tube: { right, up, turnRight: 0, turnUp: 0 } }, {}, { fires, sends }).shoot(0, 1, 2, 3)),
      'tube',
    );
    within(result.off, toward, 4);
    expect(result.say).toMatch(new RegExp(`^The tube’s beam is [34]\\.\\d mm ${words} \\(± \\d\\.\\d mm\\)\\.$`));
  });

  test('in both directions at once', () => {
    const result = only(
      learntOf(faulty({ tube: { right: 5, up: -4, turnRight: 0, turnUp: 0 } }).shoot(0, 1, 2, 3)),
      'tube',
    );
    expect(result.say).toMatch(/^The tube’s beam is 4\.\d mm to the rear and 3\.\d mm low \(± \d\.\d mm\)\.$/);
  });

  /** An angle of the tube can be separated from one of the first mirror only if that mirror's pose is known. */
  test.each([
    ['turnUp', -0.006, 'down'],
    ['turnRight', 0.006, 'rear'],
  ] as const)('it is inclined: %s %d', (axis, turn, toward) => {
    const tube = { right: 0, up: 0, turnRight: 0, turnUp: 0, [axis]: turn };
    const result = only(
      learntOf(faulty({ tube }, { mirrorTilt: 0.0003, apertureOffset: 0.2 }).shoot(0, 1, 2)),
      'inclination',
    );
    within(result.off, toward, 0.006);
    expect(result.say).toMatch(
      new RegExp(`^The tube’s beam is inclined [56]\\.\\d mrad ${toward} \\(± \\d\\.\\d mrad\\)\\.$`),
    );
  });
});

/** An offset of an aperture can be separated from one of the tube only if the tube's place is well known. */
describe('an aperture with an offset', () => {
  test.each([
    ['M2', 1, { right: 2.5, up: 0 }, 'left', 'to the left'],
    ['M2', 1, { right: 0, up: 2.5 }, 'up', 'high'],
    ['M3', 2, { right: 0, up: -2.5 }, 'down', 'low'],
  ] as const)('%s (%i): %o', (station, index, off, toward, words) => {
    const apertures = centred().map((place, k) => (k === index ? off : place));
    const result = learntOf(
      faulty({ apertures }, { tubeOffset: 0.3, mirrorPiston: 0.2, apertureOffset: 2 }).shoot(0, 1, 2, 3),
    ).find((one) => one.kind === 'aperture')!;
    expect(result.station).toBe(station);
    within(result.off, toward, 2.5);
    expect(result.say).toContain(`The aperture of ${station} is ${result.off[0]!.by.toFixed(1)} mm ${words} (± `);
  });
});

/** Right-handed about its axis; the words are those of someone who looks against z, against x, and along y. */
describe('a carriage that turns along its travel', () => {
  test.each([
    [
      'gantry',
      0,
      new Vector3(0, 0, 0.003),
      'z',
      'Seen from above, the gantry turns [23].\\d mrad anticlockwise on its way from near M1 \\(rear\\) to far from M1 \\(front\\)',
    ],
    [
      'gantry',
      0,
      new Vector3(0, 0, -0.003),
      'z',
      'Seen from above, the gantry turns [23].\\d mrad clockwise on its way from near M1 \\(rear\\) to far from M1 \\(front\\)',
    ],
    ['gantry', 0, new Vector3(0.003, 0, 0), 'x', 'Seen from the right, the gantry turns [23].\\d mrad anticlockwise'],
  ] as const)('%s (%i) by %o', (rides, order, turn, axis, words) => {
    const carriages = still().map((none, k) => (k === order ? turn : none));
    const result = learntOf(faulty({ carriages }, { carriageTurn: 0.003 }).shoot(0, 1, 2, 3, 1, 2, 3)).find(
      (one) => one.kind === 'carriage',
    )!;
    expect(result).toMatchObject({ rides, axis });
    expect(Math.abs(result.turn - turn[axis])).toBeLessThan(2 * result.u);
    expect(result.say).toMatch(new RegExp(`^${words}`));
  });
});

describe('nothing is reported', () => {
  test('before the first mark', () => {
    expect(learntOf(faulty())).toEqual([]);
  });

  test.each([0, 1, 2])('of a nominal machine, mirror %i turned back and forth', (mirror) => {
    expect(learntOf(exercised(faulty(), mirror))).toEqual([]);
  });

  test('of what marks cannot determine: all apertures and the tube a millimetre higher', () => {
    const apertures = centred().map((_, k) => ({ right: 0, up: k < 3 ? 1 : 0 }));
    expect(
      learntOf(faulty({ apertures, tube: { right: 0, up: 1, turnRight: 0, turnUp: 0 } }).shoot(0, 1, 2, 3)),
    ).toEqual([]);
  });

  test('of a screw after one small turn', () => {
    const machine = faulty();
    Object.assign(machine.machine.gains[0]!['B']!, { right: 0, up: 0 });
    expect(
      learntOf(
        machine
          .shoot(0, 1)
          .turn(0, 'B', 1 / 32)
          .shoot(1),
      ),
    ).toEqual([]);
  });
});

function within(off: readonly Off[], toward: Off['toward'], by: number): void {
  expect(off.map((one) => one.toward)).toEqual([toward]);
  expect(Math.abs(off[0]!.by - by)).toBeLessThan(off[0]!.u);
}
