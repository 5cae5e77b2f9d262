/** What the machine's figures and marks come to. */
import { describe, expect, test } from 'vitest';
import type { Light } from '../../src/model/index.ts';
import { CENTRED } from '../support/log.ts';
import { at, light, machine } from './lit.ts';

const BEAM = 'beam: {diameter: 6 mm, divergence: 3 mrad, M2: 1.2}';

const stationU = (of: Light) => of.corners[0]!.stations.find(({ name }) => name === 'lens')!.offsetU!;
const fields = ({ lacks }: Light) => lacks.map(({ field }) => field);

test('four corners; the beam has the written diameter at the exit and the written divergence', () => {
  const result = light(machine(BEAM));
  expect(result.corners.map((corner) => Object.values(corner.with).join(' '))).toEqual([
    'near near',
    'near far',
    'far near',
    'far far',
  ]);
  const far = at(result, 'M3');
  expect(far.along).toBe(90 + 690 + 910);
  const { waist, at: place, divergence } = result.beam!;
  expect(Math.hypot(waist, divergence * (0 - place))).toBeCloseTo(6, 12);
  expect(far.diameter).toBeCloseTo(Math.hypot(waist, divergence * (1690 - place)), 12);
});

test('an off-centre mark has a larger loss, with the uncertainty of its reading; a stale mark does not count', () => {
  const off = light(machine(BEAM), CENTRED.M1, 'marks: M2\nshots: {near: centre, far: 7 right 0 up}\n');
  expect(at(off, 'M2').offset).toBe(7);
  expect(at(off, 'M2').lost).toBeGreaterThan(0.05);
  expect(at(off, 'M2').lostU).toBeGreaterThan(0.005);
  expect(at(off, 'M2').lost).toBeGreaterThan(at(light(machine(BEAM)), 'M2').lost);
  const turned = light(
    machine(BEAM),
    'marks: M2\nshots: {near: centre, far: 7 right 0 up}\n',
    'adjust: M1\nturn: {A: in 1/4}\n',
  );
  expect(at(turned, 'M2').offset).toBeUndefined();
});

test('an uncertain leg makes the width uncertain', () => {
  const result = light(machine(BEAM, (text) => text.replace('leg: 90 mm', 'leg: 90 mm ± 20 mm')));
  const { waist, at: place, divergence } = result.beam!;
  const wide = (along: number) => Math.hypot(waist, divergence * (along - place));
  expect(at(result, 'M3').u).toBeCloseTo(Math.max(wide(1710) - wide(1690), wide(1690) - wide(1670)), 9);
});

test('the focused beam passes a nozzle', () => {
  const nozzle = machine(BEAM, (text) =>
    text.replace('focal: 50.8 mm}', 'focal: 50.8 mm}\n  nozzle: {leg: 40 mm, aperture: 4 mm}'),
  );
  const result = light(nozzle);
  expect(at(result, 'nozzle').diameter / at(result, 'lens').diameter).toBeCloseTo((50.8 - 40) / 50.8, 1);
  expect(at(result, 'nozzle').lost).toBeLessThan(0.01);
});

/**
 * Ray transfer through a thin lens and L further on: x = o (1 − L/f) + s L (Kogelnik and Li, Appl. Opt. 5 (1966) 1550;
 * from memory).
 */
test('tape after the lens is shot with it out; the beam with the lens fitted is computed', () => {
  const nozzle = machine(BEAM, (text) =>
    text.replace('focal: 50.8 mm}', 'focal: 50.8 mm}\n  nozzle: {leg: 40 mm, aperture: 4 mm}'),
  );
  const met = 'marks: lens\nshots: {here: 1.5 right 0 rear}\n';
  const transmission = (mark: string) => at(light(nozzle, met, `marks: nozzle\nshots: {here: ${mark}}\n`), 'nozzle', 0);
  expect(transmission('1.5 right 0 rear').offset).toBeCloseTo(1.5 * (1 - 40 / 50.8), 9);
  expect(transmission('2.3 right 0 rear').offset).toBeCloseTo(1.5 * (1 - 40 / 50.8) + 0.8, 9);
  expect(transmission('centre').offset).toBeCloseTo(1.5 * (40 / 50.8), 9);
  const alone = at(light(nozzle, 'marks: nozzle\nshots: {here: centre}\n'), 'nozzle', 0);
  expect(alone.offset).toBe(0);
  expect(transmission('centre').offsetU! / alone.offsetU!).toBeCloseTo(Math.hypot(1, 40 / 50.8), 9);
  expect(transmission('centre').lost).toBeGreaterThan(alone.lost);
  // What misses without the lens may well pass with it.
  expect(transmission('none')).toMatchObject({ lost: expect.closeTo(alone.lost, 12) });
  expect(transmission('none').missed).toBeUndefined();
});

test('a mirror’s own face at 45° clips more, most for an offset in the plane of incidence', () => {
  const sideways = at(light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: 4 right 0 up}\n'), 'M2');
  const upward = at(light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: 0 right 4 up}\n'), 'M2');
  expect(sideways.lost).toBeCloseTo(upward.lost, 12);
  expect(sideways.lostOnFace).toBeGreaterThan(upward.lostOnFace!);
  expect(upward.lostOnFace).toBeGreaterThan(upward.lost);
});

test('a missed tape is no centred beam: its loss is 1', () => {
  const result = light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: none}\n');
  expect(at(result, 'M2')).toMatchObject({ missed: true, lost: 1 });
  expect(at(result, 'M2').offset).toBeUndefined();
  expect(result.corners.map(({ lost }) => lost === 1)).toEqual([false, false, true, true]);
});

test('a mark with one coordinate is no miss', () => {
  const result = light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: 4 right}\n');
  expect(at(result, 'M2').missed).toBeUndefined();
  expect(at(result, 'M2').offset).toBeUndefined();
  expect(at(result, 'M2').lost).toBeLessThan(0.01);
});

test('at the centre of an aperture the loss can only grow, and its uncertainty is positive', () => {
  const result = light(machine(BEAM), 'marks: M3\nshots:\n  - {at: far, with: {M2: far}, mark: centre}\n');
  const { lost, lostU, offset, offsetU } = at(result, 'M3');
  expect([offset, lost < 0.001]).toEqual([0, true]);
  expect(offsetU).toBeGreaterThan(0.1);
  expect(lostU).toBeGreaterThan(lost / 100);
});

test('the uncertainty of the total loss combines its parts, and the largest loss dominates', () => {
  const { lost, lostU, stations } = light(
    machine(BEAM),
    'marks: M2\nshots: {near: centre, far: 7 right 0 up}\n',
  ).corners.at(-1)!;
  expect(1 - lost).toBeCloseTo(
    stations.reduce((share, one) => share * (1 - one.lost), 1),
    12,
  );
  expect(lostU).toBeGreaterThan(0.95 * stations[1]!.lostU * (1 - lost));
  expect(lostU).toBeLessThan(1.05 * stations[1]!.lostU);
});

test('the uncertainty of the spot includes that of the legs', () => {
  const { diameter, spot, depth } = light(machine(BEAM, (text) => text.replace('leg: 60 mm', 'leg: 60 mm ± 200 mm')))
    .focus!;
  expect(diameter.u / diameter.most).toBeGreaterThan(0.03);
  expect(spot.u / spot.most).toBeCloseTo(diameter.u / diameter.least, 1);
  expect(depth.u / depth.most).toBeCloseTo(2 * (spot.u / spot.most), 1);
});

test('a mark on the right of the lens leans the cut to the left; out of plumb to the right shifts the spot to the right', () => {
  const result = light(
    machine(BEAM),
    'marks: lens\nshots:\n  - {at: here, mark: 2 right 0 rear}\n  - {at: here, height: 50 mm, mark: 1 right 0 rear}\n  - {at: here, height: 100 mm, mark: 2 right 0 rear}\n',
  );
  expect(result.focus!.lean!.right).toBeCloseTo(Math.atan(0.02 - 2 / 50.8), 9);
  expect(result.focus!.lean!.isPlumbKnown).toBe(true);
  expect(result.focus!.lean!.u.right).toBeCloseTo(
    Math.hypot(stationU(result) / 50.8, result.focus!.shift!.u.right / 50.8),
    4,
  );
  expect(result.focus!.shift!.right).toBeCloseTo(50.8 * 0.02, 9);
  expect(result.focus!.shift!.u.right).toBeGreaterThan(0);
});

describe('missing values are listed by field', () => {
  test.each([
    ['no beam', 'power: 80 W', 'source.beam.diameter'],
    ['no spread', 'beam: {diameter: 6 mm}', 'source.beam.divergence'],
    ['what no beam can be', 'beam: {diameter: 2 mm, divergence: 3 mrad, M2: 1.2}', 'source.beam'],
    ['a beam that does not spread', 'beam: {diameter: 6 mm, divergence: 0 mrad}', 'source.beam'],
    ['no power', BEAM, 'source.power'],
    ['no material', BEAM, 'path.lens.material'],
  ])('%s', (_, source, field) => expect(fields(light(machine(source)))).toContain(field));

  test.each([
    ['no lens', 'focal: 50.8 mm', '', 'path.lens.focal'],
    ['a wavelength without limits for the eye', '10.6 um', '1.06 um', 'source.wavelength'],
  ])('%s', (_, from, to, field) => {
    const result = light(machine(`${BEAM}; power: 80 W`, (text) => text.replace(from, to)));
    expect(fields(result)).toContain(field);
    for (const { say } of result.lacks) expect(say).toMatch(/\bcannot be computed: ./);
  });

  test('nothing is listed if all are given', () =>
    expect(
      fields(
        light(
          machine(`${BEAM}; power: 80 W`, (text) => text.replace('focal: 50.8 mm', 'focal: 50.8 mm, material: ZnSe')),
        ),
      ),
    ).toEqual([]));

  test('without the beam no widths are listed', () =>
    expect(light(machine('power: 80 W'))).toMatchObject({ corners: [] }));

  test('one of divergence and M2 is enough, and the assumption is stated', () => {
    expect(light(machine('beam: {diameter: 6 mm, M2: 1.2}')).beam).toMatchObject({
      waist: 6,
      at: 0,
      assumed: 'waist at the exit',
    });
    expect(light(machine('beam: {diameter: 6 mm, divergence: 3 mrad}')).beam!.M2).toBeCloseTo(
      (Math.PI * 6 * 0.003) / (4 * 0.0106),
      12,
    );
  });
});

test('the aberration of a meniscus and of other materials is not computed', () => {
  const lens = (more: string) =>
    light(machine(BEAM, (text) => text.replace('focal: 50.8 mm', `focal: 50.8 mm, ${more}`)));
  expect(lens('material: ZnSe').focus!.aberration!.wrong / lens('material: ZnSe').focus!.aberration!.right).toBeCloseTo(
    3.207,
    3,
  );
  expect(lens('material: ZnSe, shape: meniscus').focus!.aberration).toBeUndefined();
  expect(lens('material: GaAs').focus!.aberration).toBeUndefined();
});

test('values without ± give results without ±, and an impossible M2 does not count', () => {
  const exact = light(machine(`${BEAM}; power: 80 W`));
  expect([exact.beam!.u, exact.eyewear!.irradianceU, exact.focus!.spot.u]).toEqual([
    { waist: 0, at: 0, divergence: 0, M2: 0 },
    0,
    0,
  ]);
  const nearOne = light(machine('beam: {diameter: 6 mm, divergence: 3 mrad, M2: 1.02 ± 0.1}'));
  expect(nearOne.beam!.u.M2).toBeCloseTo(0.1, 9);
  expect(light(machine('beam: {diameter: 6 mm, divergence: 2.3 mrad ± 0.2 mrad}')).beam!.u.divergence).toBeGreaterThan(
    0,
  );
});

test.each(['power: 80 W ± 90 W', 'power: 80 W; beam: {diameter: 6 mm ± 7 mm, divergence: 3 mrad, M2: 1.2}'])(
  'a value smaller than its uncertainty does not remove the rest: %s',
  (figures) => {
    const result = light(machine(figures.includes('beam') ? figures : `${BEAM}; ${figures}`));
    expect(fields(result)).not.toContain('source');
    expect(result.eyewear!.exposures[0]!.densityU).toBeGreaterThan(0.2);
    expect(result.corners).toHaveLength(4);
  },
);

test('spot and depth have the uncertainty of a leg or the lens alone', () => {
  const focal = light(machine(BEAM, (text) => text.replace('focal: 50.8 mm', 'focal: 50.8 mm ± 1 mm'))).focus!;
  expect(focal.spot.u / focal.spot.most).toBeCloseTo(1 / 50.8, 3);
  expect(focal.depth.u / focal.depth.most).toBeCloseTo(2 / 50.8, 2);
  expect(focal.diameter.u).toBe(0);
});

test('values that no beam has, within their ±, give the nearest beam', () => {
  const near = light(machine('beam: {diameter: 5 mm ± 0.3 mm, divergence: 3 mrad, M2: 1.2}'));
  expect(near.beam!.M2).toBeCloseTo((Math.PI * 5 * 0.003) / (4 * 0.0106), 9);
  expect(fields(near)).not.toContain('source.beam');
  expect(fields(light(machine('beam: {diameter: 5 mm, divergence: 3 mrad, M2: 1.2}')))).toContain('source.beam');
});

test('a lens too weak for the beam has no spot, and this is listed', () => {
  const weak = light(
    machine('beam: {diameter: 0.5 mm, divergence: 40 mrad}', (text) => text.replace('focal: 50.8 mm', 'focal: 9 m')),
  );
  expect(weak.focus).toBeUndefined();
  expect(weak.lacks).toContainEqual({
    field: 'path.lens.focal',
    say: expect.stringContaining('diverges faster than lens focuses it'),
  });
});

test('of several exposures the one with the highest optical density comes first', () => {
  const pulsed = light(machine(`${BEAM}; power: 80 W`, (text) => `${text}pulse: {time: 200 ms}\n`));
  expect(pulsed.eyewear!.exposures.map(({ time }) => time)).toEqual([10, 0.2]);
  expect(pulsed.eyewear!.exposures[0]!.density).toBeGreaterThan(pulsed.eyewear!.exposures[1]!.density);
});
