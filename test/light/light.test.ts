/** What the machine's figures and marks come to. */
import { describe, expect, test } from 'vitest';
import { lightOf } from '../../src/light/index.ts';
import type { Entry, Light, Machine, Quantity } from '../../src/model/index.ts';
import { createReader, expressions } from '../../src/workbook/index.ts';
import { evaluate } from '../../src/evaluation/index.ts';
import { threads } from '../../src/machine/index.ts';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { normalDraws } from '../statistics/random.ts';

const BEAM = 'beam: {diameter: 6 mm, divergence: 3 mrad, M2: 1.2}';
const machine = (source: string, change: (text: string) => string = (text) => text) =>
  change(
    MACHINE.replace(
      '  fires: left',
      `  fires: left\n${source
        .split('; ')
        .map((line) => `  ${line}`)
        .join('\n')}`,
    ),
  );

function light(text: string, ...cells: string[]): Light {
  const { entries } = createReader({ threads, expressions }).read([text, LIMITS, ...cells].join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  });
  const found = entries.map(({ entry }) => entry).find((entry) => entry.kind === 'machine');
  return lightOf(found!.machine, evaluate(entries));
}

const at = (of: Light, name: string, corner = of.corners.length - 1) =>
  of.corners[corner]!.stations.find((one) => one.name === name)!;
const stationU = (of: Light) => of.corners[0]!.stations.find(({ name }) => name === 'lens')!.offsetU!;
const fields = ({ lacks }: Light) => lacks.map(({ field }) => field);

test('four corners; the beam is as wide at the exit as written and spreads by the divergence', () => {
  const found = light(machine(BEAM));
  expect(found.corners.map((corner) => Object.values(corner.with).join(' '))).toEqual([
    'near near',
    'near far',
    'far near',
    'far far',
  ]);
  const far = at(found, 'M3');
  expect(far.along).toBe(90 + 690 + 910);
  const { waist, at: place, divergence } = found.beam!;
  expect(Math.hypot(waist, divergence * (0 - place))).toBeCloseTo(6, 12);
  expect(far.diameter).toBeCloseTo(Math.hypot(waist, divergence * (1690 - place)), 12);
});

test('a mark off the middle loses more, as far as its own reading goes; one that no longer holds counts for nothing', () => {
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

test('a leg that is not well known makes the width no better known', () => {
  const found = light(machine(BEAM, (text) => text.replace('leg: 90 mm', 'leg: 90 mm ± 20 mm')));
  const { waist, at: place, divergence } = found.beam!;
  const wide = (along: number) => Math.hypot(waist, divergence * (along - place));
  expect(at(found, 'M3').u).toBeCloseTo(Math.max(wide(1710) - wide(1690), wide(1690) - wide(1670)), 9);
});

test('a nozzle is passed by the focused beam', () => {
  const nozzle = machine(BEAM, (text) =>
    text.replace('focal: 50.8 mm}', 'focal: 50.8 mm}\n  nozzle: {leg: 40 mm, aperture: 4 mm}'),
  );
  const found = light(nozzle);
  expect(at(found, 'nozzle').diameter / at(found, 'lens').diameter).toBeCloseTo((50.8 - 40) / 50.8, 1);
  expect(at(found, 'nozzle').lost).toBeLessThan(0.01);
});

/** Ray transfer through a thin lens and L further on: x = o (1 − L/f) + s L (Kogelnik and Li, Appl. Opt. 5 (1966) 1550; from memory). */
test('tape behind the lens is shot with it out; where the beam passes there with the lens fitted is worked out', () => {
  const nozzle = machine(BEAM, (text) =>
    text.replace('focal: 50.8 mm}', 'focal: 50.8 mm}\n  nozzle: {leg: 40 mm, aperture: 4 mm}'),
  );
  const met = 'marks: lens\nshots: {here: 1.5 right 0 rear}\n';
  const passed = (mark: string) => at(light(nozzle, met, `marks: nozzle\nshots: {here: ${mark}}\n`), 'nozzle', 0);
  expect(passed('1.5 right 0 rear').offset).toBeCloseTo(1.5 * (1 - 40 / 50.8), 9);
  expect(passed('2.3 right 0 rear').offset).toBeCloseTo(1.5 * (1 - 40 / 50.8) + 0.8, 9);
  expect(passed('centre').offset).toBeCloseTo(1.5 * (40 / 50.8), 9);
  const alone = at(light(nozzle, 'marks: nozzle\nshots: {here: centre}\n'), 'nozzle', 0);
  expect(alone.offset).toBe(0);
  expect(passed('centre').offsetU! / alone.offsetU!).toBeCloseTo(Math.hypot(1, 40 / 50.8), 9);
  expect(passed('centre').lost).toBeGreaterThan(alone.lost);
  // What misses without the lens may well pass with it.
  expect(passed('none')).toMatchObject({ lost: expect.closeTo(alone.lost, 12) });
  expect(passed('none').missed).toBeUndefined();
});

test('a mirror’s own face, seen at 45°, takes more, and most where the beam is off in the plane of incidence', () => {
  const sideways = at(light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: 4 right 0 up}\n'), 'M2');
  const upward = at(light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: 0 right 4 up}\n'), 'M2');
  expect(sideways.lost).toBeCloseTo(upward.lost, 12);
  expect(sideways.lostOnFace).toBeGreaterThan(upward.lostOnFace!);
  expect(upward.lostOnFace).toBeGreaterThan(upward.lost);
});

test('a tape that the beam missed is no centred beam: all of it is lost there', () => {
  const found = light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: none}\n');
  expect(at(found, 'M2')).toMatchObject({ missed: true, lost: 1 });
  expect(at(found, 'M2').offset).toBeUndefined();
  expect(found.corners.map(({ lost }) => lost === 1)).toEqual([false, false, true, true]);
});

test('a mark that was read one way only is no beam that missed', () => {
  const found = light(machine(BEAM), 'marks: M2\nshots: {near: centre, far: 4 right}\n');
  expect(at(found, 'M2').missed).toBeUndefined();
  expect(at(found, 'M2').offset).toBeUndefined();
  expect(at(found, 'M2').lost).toBeLessThan(0.01);
});

test('in the middle of a hole the loss can only grow, and says by how much it may', () => {
  const found = light(machine(BEAM), 'marks: M3\nshots:\n  - {at: far, with: {M2: far}, mark: centre}\n');
  const { lost, lostU, offset, offsetU } = at(found, 'M3');
  expect([offset, lost < 0.001]).toEqual([0, true]);
  expect(offsetU).toBeGreaterThan(0.1);
  expect(lostU).toBeGreaterThan(lost / 100);
});

test('the share lost on the whole way is as well known as its parts, and the mark that costs most decides', () => {
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

test('the spot is as well known as the legs let the beam’s width be', () => {
  const { diameter, spot, depth } = light(machine(BEAM, (text) => text.replace('leg: 60 mm', 'leg: 60 mm ± 200 mm')))
    .focus!;
  expect(diameter.u / diameter.most).toBeGreaterThan(0.03);
  expect(spot.u / spot.most).toBeCloseTo(diameter.u / diameter.least, 1);
  expect(depth.u / depth.most).toBeCloseTo(2 * (spot.u / spot.most), 1);
});

test('a mark on the right of the lens leans the cut to the left, and off plumb to the right puts the spot to the right', () => {
  const found = light(
    machine(BEAM),
    'marks: lens\nshots:\n  - {at: here, mark: 2 right 0 rear}\n  - {at: here, height: 50 mm, mark: 1 right 0 rear}\n  - {at: here, height: 100 mm, mark: 2 right 0 rear}\n',
  );
  expect(found.focus!.lean!.right).toBeCloseTo(Math.atan(0.02 - 2 / 50.8), 9);
  expect(found.focus!.lean!.isPlumbKnown).toBe(true);
  expect(found.focus!.lean!.u.right).toBeCloseTo(
    Math.hypot(stationU(found) / 50.8, found.focus!.shift!.u.right / 50.8),
    4,
  );
  expect(found.focus!.shift!.right).toBeCloseTo(50.8 * 0.02, 9);
  expect(found.focus!.shift!.u.right).toBeGreaterThan(0);
});

describe('what is not written is asked for by its field', () => {
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
    const found = light(machine(`${BEAM}; power: 80 W`, (text) => text.replace(from, to)));
    expect(fields(found)).toContain(field);
    for (const { say } of found.lacks) expect(say).toMatch(/\bcannot be computed: ./);
  });

  test('nothing, where all is given', () =>
    expect(
      fields(
        light(
          machine(`${BEAM}; power: 80 W`, (text) => text.replace('focal: 50.8 mm', 'focal: 50.8 mm, material: ZnSe')),
        ),
      ),
    ).toEqual([]));

  test('without the beam nothing is said of widths', () =>
    expect(light(machine('power: 80 W'))).toMatchObject({ corners: [] }));

  test('one of divergence and M2 is enough, and says what it takes for granted', () => {
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

test('a meniscus and a lens of other material are not guessed at', () => {
  const lens = (more: string) =>
    light(machine(BEAM, (text) => text.replace('focal: 50.8 mm', `focal: 50.8 mm, ${more}`)));
  expect(lens('material: ZnSe').focus!.aberration!.wrong / lens('material: ZnSe').focus!.aberration!.right).toBeCloseTo(
    3.207,
    3,
  );
  expect(lens('material: ZnSe, shape: meniscus').focus!.aberration).toBeUndefined();
  expect(lens('material: GaAs').focus!.aberration).toBeUndefined();
});

/** Each figure drawn from what its ± says, some thousand times over: what comes out must vary as it is said to. */
test('how sure each value is said to be is how much it varies where the figures do', () => {
  const doubted = machine(
    'beam: {diameter: 6 mm ± 0.1 mm, divergence: 3 mrad ± 0.05 mrad, M2: 1.15 ± 0.02}; power: 80 W ± 4 W',
    (text) =>
      text.replace('aperture: 18 mm, focal: 50.8 mm', 'aperture: 12 mm, focal: 50.8 mm ± 0.4 mm, material: ZnSe'),
  );
  const { entries } = createReader({ threads, expressions }).read(doubted, {
    file: 'test.alignbook.yaml',
    files: new Map(),
  });
  const written = (entries[0]!.entry as Extract<Entry, { kind: 'machine' }>).machine;
  const normal = normalDraws(7);
  const draw = ({ value, u = 0 }: Quantity): Quantity => ({ value: value + u * normal() });
  const drawn = (): Machine => {
    const { beam, power, ...source } = written.source;
    return {
      ...written,
      source: {
        ...source,
        power: draw(power!),
        beam: { diameter: draw(beam!.diameter), divergence: draw(beam!.divergence!), M2: draw(beam!.M2!) },
      },
      path: written.path.map((element) => ({ ...element, ...(element.focal && { focal: draw(element.focal) }) })),
    };
  };
  const VALUES: Readonly<Record<string, (light: Light) => readonly [value: number, u: number]>> = {
    waist: ({ beam }) => [beam!.waist, beam!.u.waist],
    place: ({ beam }) => [beam!.at, beam!.u.at],
    divergence: ({ beam }) => [beam!.divergence, beam!.u.divergence],
    M2: ({ beam }) => [beam!.M2, beam!.u.M2],
    width: ({ focus }) => [focus!.diameter.most, focus!.diameter.u],
    'loss at the lens': (found) => [at(found, 'lens').lost, at(found, 'lens').lostU],
    'loss in all': ({ corners }) => [corners.at(-1)!.lost, corners.at(-1)!.lostU],
    depth: ({ focus }) => [focus!.depth.most, focus!.depth.u],
    spot: ({ focus }) => [focus!.spot.most, focus!.spot.u],
    'blur the right way round': ({ focus }) => [focus!.aberration!.right, focus!.aberration!.u.right],
    'blur the wrong way round': ({ focus }) => [focus!.aberration!.wrong, focus!.aberration!.u.wrong],
    irradiance: ({ eyewear }) => [eyewear!.irradiance, eyewear!.irradianceU],
    'optical density': ({ eyewear }) => [eyewear!.exposures[0]!.density, eyewear!.exposures[0]!.densityU],
  };
  const draws = Array.from({ length: 2000 }, () => lightOf(drawn(), { stations: [] }));
  const said = lightOf(written, { stations: [] });
  for (const [name, of] of Object.entries(VALUES)) {
    const values = draws.map((light) => of(light)[0]);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
    // The greater of the two steps counts, so a little too much is said, never too little.
    expect(of(said)[1] / spread, name).toBeGreaterThan(0.93);
    expect(of(said)[1] / spread, name).toBeLessThan(1.3);
  }
});

test('figures without ± leave none where nothing else has one, and M2 that no beam has does not count', () => {
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
  'a figure that is less sure than it is large takes nothing away from what is known: %s',
  (figures) => {
    const found = light(machine(figures.includes('beam') ? figures : `${BEAM}; ${figures}`));
    expect(fields(found)).not.toContain('source');
    expect(found.eyewear!.exposures[0]!.densityU).toBeGreaterThan(0.2);
    expect(found.corners).toHaveLength(4);
  },
);

/** The spot is the least diameter behind the lens, found by walking along the beam as it is drawn there. */
test('the spot is where the beam behind the lens is narrowest, the wider the nearer the lens to the tube', () => {
  const { spot, depth } = light(machine(BEAM)).focus!;
  const wide = (behind: number) =>
    at(
      light(
        machine(BEAM, (text) =>
          text.replace('focal: 50.8 mm}', `focal: 50.8 mm}\n  bed: {leg: ${behind} mm, aperture: 40 mm}`),
        ),
      ),
      'bed',
      0,
    ).diameter;
  const widths = Array.from({ length: 41 }, (_, k) => wide(50.2 + k * 0.08));
  expect(Math.abs(Math.min(...widths) / spot.most - 1)).toBeLessThan(0.002);
  const [first, last] = [
    widths.findIndex((width) => width < spot.most * Math.SQRT2),
    widths.findLastIndex((width) => width < spot.most * Math.SQRT2),
  ];
  expect(Math.abs((last - first) * 0.08 - depth.most)).toBeLessThan(0.16);
});

test('where only a leg or the lens is unsure, spot and depth say so', () => {
  const focal = light(machine(BEAM, (text) => text.replace('focal: 50.8 mm', 'focal: 50.8 mm ± 1 mm'))).focus!;
  expect(focal.spot.u / focal.spot.most).toBeCloseTo(1 / 50.8, 3);
  expect(focal.depth.u / focal.depth.most).toBeCloseTo(2 / 50.8, 2);
  expect(focal.diameter.u).toBe(0);
});

test('figures that miss those of a beam by less than their ± are taken for the nearest beam', () => {
  const near = light(machine('beam: {diameter: 5 mm ± 0.3 mm, divergence: 3 mrad, M2: 1.2}'));
  expect(near.beam!.M2).toBeCloseTo((Math.PI * 5 * 0.003) / (4 * 0.0106), 9);
  expect(fields(near)).not.toContain('source.beam');
  expect(fields(light(machine('beam: {diameter: 5 mm, divergence: 3 mrad, M2: 1.2}')))).toContain('source.beam');
});

test('a lens too weak for the beam has no spot, and that is said', () => {
  const weak = light(
    machine('beam: {diameter: 0.5 mm, divergence: 40 mrad}', (text) => text.replace('focal: 50.8 mm', 'focal: 9 m')),
  );
  expect(weak.focus).toBeUndefined();
  expect(weak.lacks).toContainEqual({
    field: 'path.lens.focal',
    say: expect.stringContaining('diverges faster than lens focuses it'),
  });
});

test('of several exposures the one that needs the darkest eyewear stands first', () => {
  const pulsed = light(machine(`${BEAM}; power: 80 W`, (text) => `${text}pulse: {time: 200 ms}\n`));
  expect(pulsed.eyewear!.exposures.map(({ time }) => time)).toEqual([10, 0.2]);
  expect(pulsed.eyewear!.exposures[0]!.density).toBeGreaterThan(pulsed.eyewear!.exposures[1]!.density);
});
