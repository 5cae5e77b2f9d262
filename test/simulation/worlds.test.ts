/** The worlds against figures computed by hand and, for rails, against the other ray tracer of these simulations. */
import { Vector3 } from 'three';
import { expect, test } from 'vitest';
import { turnEffect } from '../../src/optics/index.ts';
import { drawnMachine, markOf } from './drawn.ts';
import { Engraver } from './engraver.ts';
import { limitsCell, trueUtilisations } from './limits.ts';
import { afterTransport, drawnPlan, ENGRAVERS } from './machines.ts';
import { random } from './random.ts';
import { IDEAL, ordinary, READING } from './workshop.ts';
import { usualPlan, layoutOf, LEGS, machineCells, marksOf, mountOf, type Plan, type Truth } from './world.ts';
import { inWorld, workshopIn, worldOf, WORLDS } from './worlds.ts';

const PLAN = usualPlan(20);
const TRUE: Truth = {
  tube: { right: 0, up: 0, turnRight: 0, turnUp: 0 },
  screws: [{}, {}, {}],
  gains: [{}, {}, {}],
  apertures: [0, 1, 2, 3].map(() => ({ right: 0, up: 0 })),
  shifts: [],
};
const { M2, M3 } = LEGS;
const MIDDLE = { M2: (M2.near + M2.far) / 2, M3: (M3.near + M3.far) / 2 };

function marks(world: string, carriages: { M2: number; M3: number }, seed = 1) {
  const { plan, start } = inWorld(worldOf(world), PLAN, TRUE, random(seed));
  return marksOf(layoutOf(plan), start, carriages).map((mark) => mark!);
}

test('rails that sag: M2 by one, M3 by both, nothing at the ends of the travels', () => {
  expect(
    marks('bow=2', MIDDLE)
      .slice(0, 3)
      .map(({ up }) => up),
  ).toEqual([0, 2, 4].map((up) => expect.closeTo(up, 9)));
  expect(marks('bow=2', { M2: M2.near + 140, M3: M3.near })[1]!.up).toBeCloseTo(1.5, 9);
  for (const M2_ of [M2.near, M2.far])
    for (const M3_ of [M3.near, M3.far])
      for (const { right, up } of marks('bow=2', { M2: M2_, M3: M3_ }))
        expect(Math.hypot(right, up)).toBeLessThan(1e-9);
});

test('a gantry that racks: the beam at M3 walks sideways by its yaw times the head’s leg, both ways', () => {
  const yaw = 6e-6 * 280;
  const [far, near] = [marks('rack=6', M2AndM3('far')), marks('rack=6', M2AndM3('near'))];
  expect(Math.abs(far[2]!.right)).toBeCloseTo(yaw * M3.far, 2);
  expect(near[2]!.right).toBeCloseTo(-far[2]!.right, 2);
  expect([far[1]!.right, far[2]!.up]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
  expect(marks('rack=6', { M2: MIDDLE.M2, M3: M3.far })[2]!.right).toBeCloseTo(0, 9);
  const senses = Array.from({ length: 40 }, (_, seed) => Math.sign(marks('rack=6', M2AndM3('far'), seed)[2]!.right));
  expect(new Set(senses)).toEqual(new Set([-1, 1]));
});

const M2AndM3 = (gantry: 'near' | 'far') => ({ M2: M2[gantry], M3: M3.far });

test('yaw and sag in every layout: agree with the other tracer, which turns and moves the carriages themselves', () => {
  let worst = 0;
  for (const [k, engraver] of ENGRAVERS.entries()) {
    const draw = random(k);
    const plan = drawnPlan(draw, engraver);
    const mount = mountOf(plan);
    const none = Object.fromEntries(mount.screws.map(({ name }) => [name, turnEffect(mount, name)]));
    const tube = {
      right: draw.normal(),
      up: draw.normal(),
      turnRight: 0.002 * draw.normal(),
      turnUp: 0.002 * draw.normal(),
    };
    const rails = { sag: 2, yaw: 6e-6 };
    const truth = { ...TRUE, tube, rails };
    const hidden = {
      ...drawnMachine(draw, engraver, none, 0),
      tube,
      plates: [0, 1, 2].map(() => ({ piston: 0, right: 0, up: 0 })),
      apertures: TRUE.apertures,
    };
    const low = { right: 0, up: -rails.sag };
    const same = {
      ...hidden,
      carriages: [new Vector3(0, 0, rails.yaw * (M2.far - M2.near)), new Vector3()],
      bends: [low, low],
    };
    for (const gantry of [M2.near, 300, M2.far]) {
      for (const head of [M3.near, 500, M3.far]) {
        const seen = marksOf(layoutOf(plan), truth, { M2: gantry, M3: head });
        for (const station of [0, 1, 2, 3]) {
          const other = markOf(same, { M2: gantry, M3: head }, station)!;
          worst = Math.max(worst, Math.hypot(seen[station]!.right - other.right, seen[station]!.up - other.up));
        }
      }
    }
  }
  // The other tracer keeps its tapes square to the nominal beam, which is a hundredth of the effect of the yaw.
  expect(worst).toBeLessThan(0.015);
});

test('limits are evaluated between the stops and in every corner', () => {
  const share = (world: string, station: string) => {
    const { plan, start } = inWorld(worldOf(world), PLAN, TRUE, random(1));
    return trueUtilisations(plan, start).find((one) => one.station === station && one.limit === 'spread')!.share;
  };
  expect(share('bow=2', 'M2')).toBeCloseTo(2 / 2, 6);
  expect(share('bow=2', 'M3')).toBeCloseTo(4 / 2, 6);
  expect(share('rack=6', 'M3')).toBeCloseTo((2 * 6e-6 * 280 * M3.far) / 2, 2);
});

test('reading noise and outliers have the requested size', () => {
  const read = (world: string) => {
    const workshop = workshopIn(worldOf(world), 3);
    return Array.from({ length: 20_000 }, () => workshop.read({ right: 5.1, up: 0 }));
  };
  const width = (world: string) =>
    Math.sqrt(read(world).reduce((sum, { right, up }) => sum + (right - 5.1) ** 2 + up ** 2, 0) / 40_000);
  for (const noise of [0.4, 0.58])
    expect(width(`noise=${noise}`)).toBeCloseTo(Math.hypot(noise, READING.step / Math.sqrt(12)), 1);
  const nonsense = read('outliers=0.05').filter(({ right, up }) => Math.hypot(right - 5.1, up) > 2).length / 20_000;
  // Half of it lies 10.2 mm away, and of the rest, a Rayleigh distance of 4 mm, 88 of 100 more than 2 mm.
  expect(nonsense).toBeCloseTo(0.05 * (0.5 + 0.5 * Math.exp(-(2 ** 2) / (2 * 4 ** 2))), 2);
});

test('a mark read from behind has left and right swapped, and nothing else', () => {
  const workshop = workshopIn(worldOf('outliers=1'), 3);
  const some = Array.from({ length: 400 }, () => workshop.read({ right: 30, up: 20 }));
  const mirrored = some.filter(({ right, up }) => Math.hypot(right + 30, up - 20) < 2).length;
  expect(mirrored / 400).toBeGreaterThan(0.4);
  expect(mirrored / 400).toBeLessThan(0.6);
});

test('small turns do nothing where screws stick', () => {
  const { turned } = workshopIn(worldOf('stiction=0.0625'), 1);
  expect([turned(1 / 32, '0 A'), turned(-1 / 32, '0 A')]).toEqual([0, 0]);
  expect(turned(-1 / 16, '0 A')).toBeCloseTo(-1 / 16, 1);
});

test('a thirty-second is lost at each reversal, of each screw by itself', () => {
  const { turned } = worldOf('backlash').workshop(random(1), random(2));
  const hand = ordinary(random(1));
  const lost = (turns: number, screw: string) => hand.turned(turns, screw) - turned(turns, screw);
  const play = 1 / 32;
  expect([
    lost(1 / 4, '0 A'),
    lost(1 / 4, '0 A'),
    lost(-1 / 4, '0 A'),
    lost(-1 / 4, '0 A'),
    lost(-1 / 4, '1 A'),
    lost(1 / 4, '0 A'),
  ]).toEqual([0, 0, -play, 0, 0, play].map((one) => expect.closeTo(one, 12)));
});

test('the effects of turns have the requested spread, and the errors of hand work are the same in every world', () => {
  const gains = (world: string) => {
    const deviations = Array.from({ length: 600 }, (_, seed) =>
      afterTransport(random(seed), PLAN, 1, worldOf(world).gain),
    )
      .flatMap(({ gains: all }) => all.flatMap((one) => Object.values(one)))
      .map((gain) => gain - 1);
    return Math.sqrt(deviations.reduce((sum, one) => sum + one ** 2, 0) / deviations.length);
  };
  expect(gains('base')).toBeCloseTo(0.15, 2);
  expect(gains('gain=0.25')).toBeCloseTo(0.25, 2);
  const turned = (world: string) => workshopIn(worldOf(world), 5).turned(1 / 4, '0 A');
  expect(turned('loose')).toBe(turned('base'));
});

test('a loose M1: no two marks behind it alike, its own mark and the truth unmoved', () => {
  const engraver = new Engraver(PLAN, TRUE, { ...IDEAL, fired: workshopIn(worldOf('loose=0.05'), 1).fired });
  const shots = Array.from({ length: 2000 }, () => ({ carriages: { M2: M2.far, M3: M3.near } }));
  expect(new Set(engraver.shoot(0, shots).map((mark) => JSON.stringify(mark))).size).toBe(1);
  const right = engraver.shoot(1, shots).map((mark) => mark!.right);
  // A turn of B does 22.4 mm at M2 far, one of C 22.0 mm the other way (the table of signed values); the mean stays.
  expect(Math.sqrt(right.reduce((sum, one) => sum + one ** 2, 0) / right.length)).toBeCloseTo(
    0.05 * Math.hypot(22.4, 22),
    0,
  );
  expect(engraver.truth).toEqual(TRUE);
});

test('a nut that is tight holds its screw; loosening and tightening tilt the mirror, each once', () => {
  const engraver = new Engraver(PLAN, TRUE, { ...IDEAL, lockTilt: () => ({ right: 0.0005, up: 0 }) });
  const far = () => engraver.shoot(1, [{ carriages: { M2: M2.far, M3: M3.near } }])[0]!;
  engraver.turn(0, 'B', 1 / 4);
  expect([engraver.truth, engraver.adjustments]).toEqual([TRUE, 1]);
  engraver.lock(0, 'tight');
  expect(engraver.truth).toEqual(TRUE);
  engraver.lock(0, 'loose');
  const loosened = far();
  // 0.5 mrad of the mirror turn the beam by 1 mrad in the plane of incidence.
  expect(Math.abs(loosened.right)).toBeCloseTo(0.001 * M2.far, 1);
  engraver.lock(0, 'loose');
  expect(far()).toEqual(loosened);
  engraver.turn(0, 'B', 1 / 10);
  expect(far().right - loosened.right).toBeCloseTo(-2.24, 1);
  engraver.lock(0, 'tight');
  const tightened = engraver.truth;
  engraver.turn(0, 'B', 1 / 10);
  expect(engraver.truth).toEqual(tightened);
});

test('without nuts a lock moves nothing', () => {
  const engraver = new Engraver(PLAN, TRUE, IDEAL);
  engraver.lock(0, 'loose');
  expect(engraver.truth).toEqual(TRUE);
});

test.each([
  ['wrong=in', '    in: toward beam', '    in: away from beam'],
  ['wrong=mirror', '      A: {right: -22, up: 22}', '      A: {right: 22, up: 22}'],
  ['wrong=swap', '      A: {right: -22, up: 22}', '      B: {right: -22, up: 22}'],
  ['wrong=pitch', '    thread: M4', '    pitch: 1.4 mm'],
])('%s changes how the mount is described, and nothing else', (world, before, after) => {
  const lines = (name: string, plan: Plan) =>
    machineCells(inWorld(worldOf(name), plan, TRUE, random(1)).plan, limitsCell()).split('\n');
  const changed = (plan: Plan) => {
    const [plain, wrong] = [lines('base', plan), lines(world, plan)];
    expect(wrong.length).toBe(plain.length);
    return plain.flatMap((line, k) => (line === wrong[k] ? [] : [[line, wrong[k]!]]));
  };
  expect(changed(PLAN)).toContainEqual([before, after]);
  expect(
    changed({ ...PLAN, mount: 'pivot and two' }).every(([line]) => / {4}(thread|in|pivot| {2}[ABC]):/.test(line!)),
  ).toBe(true);
  expect(
    marksOf(layoutOf(PLAN), { ...TRUE, screws: [{ A: 1 / 10 }, {}, {}] }, { M2: M2.far, M3: M3.far })[1]!.up,
  ).toBeCloseTo(-1.55, 2);
});

test('only the mounts of `nuts` are described with lock nuts', () => {
  const written = WORLDS.map(
    (name) => /locks: (\w+)/.exec(machineCells(inWorld(worldOf(name), PLAN, TRUE, random(1)).plan, limitsCell()))![1],
  );
  expect(WORLDS.filter((_, k) => written[k] === 'nut')).toEqual(['nuts']);
  expect(new Set(written)).toEqual(new Set(['nut', 'none']));
});

test('every world that `all` names can be requested, others are refused', () => {
  expect(WORLDS.map((name) => worldOf(name).name)).toEqual(WORLDS);
  expect([worldOf('outliers').name, worldOf('bow').name, worldOf('rack=4').name]).toEqual([
    'outliers=0.05',
    'bow=2',
    'rack=4',
  ]);
  for (const name of ['bows', 'noise=loud', 'noise=-1', 'wrong=all', 'wrong=', 'nuts=2', 'constructor'])
    expect(() => worldOf(name)).toThrow(/`/);
});
