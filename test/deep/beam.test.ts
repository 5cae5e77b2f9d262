/** The reported values of the beam, against draws of its inputs and against the beam itself. */
import { expect, test } from 'vitest';
import { lightOf } from '../../src/light/index.ts';
import type { Entry, Light, Machine, Quantity } from '../../src/model/index.ts';
import { reader } from '../support/log.ts';
import { at, light, machine } from '../light/lit.ts';
import { normalDraws } from '../statistics/random.ts';

const BEAM = 'beam: {diameter: 6 mm, divergence: 3 mrad, M2: 1.2}';

/** Each input is drawn from its ± some thousand times: the results must vary by their reported uncertainty. */
test('the uncertainty of each value is its standard deviation under random input values', () => {
  const doubted = machine(
    'beam: {diameter: 6 mm ± 0.1 mm, divergence: 3 mrad ± 0.05 mrad, M2: 1.15 ± 0.02}; power: 80 W ± 4 W',
    (text) =>
      text.replace('aperture: 18 mm, focal: 50.8 mm', 'aperture: 12 mm, focal: 50.8 mm ± 0.4 mm, material: ZnSe'),
  );
  const { entries } = reader.read(doubted, {
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
    'loss at the lens': (result) => [at(result, 'lens').lost, at(result, 'lens').lostU],
    'loss in all': ({ corners }) => [corners.at(-1)!.lost, corners.at(-1)!.lostU],
    depth: ({ focus }) => [focus!.depth.most, focus!.depth.u],
    spot: ({ focus }) => [focus!.spot.most, focus!.spot.u],
    'blur the right way round': ({ focus }) => [focus!.aberration!.right, focus!.aberration!.u.right],
    'blur the wrong way round': ({ focus }) => [focus!.aberration!.wrong, focus!.aberration!.u.wrong],
    irradiance: ({ eyewear }) => [eyewear!.irradiance, eyewear!.irradianceU],
    'optical density': ({ eyewear }) => [eyewear!.exposures[0]!.density, eyewear!.exposures[0]!.densityU],
  };
  const draws = Array.from({ length: 2000 }, () => lightOf(drawn(), { stations: [] }));
  const states = lightOf(written, { stations: [] });
  for (const [name, of] of Object.entries(VALUES)) {
    const values = draws.map((light) => of(light)[0]);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
    // The larger of the two steps counts, so the uncertainty may be slightly too large, never too small.
    expect(of(states)[1] / spread, name).toBeGreaterThan(0.93);
    expect(of(states)[1] / spread, name).toBeLessThan(1.3);
  }
});

/** The spot is the smallest diameter after the lens, found by stepping along the beam as drawn. */
test('the spot is the waist of the beam after the lens, and is larger if the lens is nearer to the tube', () => {
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
