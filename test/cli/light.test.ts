/** `light` on the workbooks of the examples and on a machine with few values. */
import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import * as z from 'zod';
import { columns } from '../../src/cli/wrap.ts';
import { oneLine } from './answers.ts';
import { LOGS } from './logs.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

const SERVICE = 'examples/1-full-service.alignbook.yaml';
const little = place.file('little.alignbook.yaml', LOGS['all within']!);
const none = place.file('none.alignbook.yaml', 'note: nothing yet\n');

const size = z.number().min(0);
const fraction = z.number().min(0).max(1);
const span = z.strictObject({ least: size, most: size, u: size });
const axes = { right: z.number(), up: z.number() };

const Answer = z.strictObject({
  format: z.literal(1),
  file: z.string(),
  beam: z
    .strictObject({
      waist: size,
      at: z.number(),
      divergence: size,
      M2: z.number().min(1),
      u: z.strictObject({ waist: size, at: size, divergence: size, M2: size }),
      assumed: z.literal('waist at the exit').optional(),
    })
    .optional(),
  corners: z.array(
    z.strictObject({
      with: z.record(z.string(), z.string()),
      stations: z.array(
        z.strictObject({
          name: z.string(),
          along: size,
          diameter: size,
          u: size,
          offset: size.optional(),
          offsetU: size.optional(),
          missed: z.literal(true).optional(),
          lost: fraction,
          lostU: size,
          lostOnFace: fraction.optional(),
          lostOnFaceU: size.optional(),
        }),
      ),
      lost: fraction,
      lostU: size,
    }),
  ),
  focus: z
    .strictObject({
      station: z.string(),
      diameter: span,
      spot: span,
      depth: span,
      aberration: z
        .strictObject({ right: size, wrong: size, u: z.strictObject({ right: size, wrong: size }) })
        .optional(),
      lean: z
        .strictObject({ ...axes, u: z.strictObject({ right: size, up: size }), isPlumbKnown: z.boolean() })
        .optional(),
      shift: z.strictObject({ ...axes, u: z.strictObject({ right: size, up: size }) }).optional(),
    })
    .optional(),
  eyewear: z
    .strictObject({
      wavelength: size,
      irradiance: size,
      irradianceU: size,
      exposures: z
        .array(z.strictObject({ time: size, permissible: size, source: z.string(), density: size, densityU: size }))
        .min(1),
    })
    .optional(),
  lacks: z.array(z.strictObject({ field: z.string(), say: z.string() })),
  findings: z.array(z.unknown()),
});

describe('for people', () => {
  const { out } = typed('light', SERVICE);

  test.each([
    '873 mm inside the tube',
    'gantry far from M1 (front), head far from M2 (right): 9.4 mm wide',
    'Spot diameter by diffraction: 0.087 to 0.128 mm',
    '0.031 mm if the lens is the wrong',
    'the laser\n          safety officer',
    'Optical density at 10.6 µm of at least 3.8 for 10 s (limit 10000 J/m²), 2.5 for 200 ms (limit 3740 J/m²)',
    'annex II to R. 4452',
    'not read in a standard',
  ])('prints %j', (text) =>
    expect(out.toLowerCase().replaceAll(/\s+/g, ' ')).toContain(text.toLowerCase().replaceAll(/\s+/g, ' ')),
  );

  test('in 80 columns', () => expect(out.split('\n').filter((line) => columns(line) > 80)).toEqual([]));

  test('what to write if the machine cell has no beam', () => {
    const text = typed('light', little).out.replaceAll(/\s+/g, ' ');
    expect(text).toContain('`beam: {diameter: 6 mm, divergence: 3 mrad}`');
    expect(text).not.toContain('mm wide');
  });

  test('no machine', () => expect(typed('light', none).out).toContain('describes no machine without errors'));
});

test.each([SERVICE, little, none, 'examples/5-missed.alignbook.yaml'])(
  '%s --json: one line, every field as documented',
  (file) => {
    const answer = Answer.parse(oneLine(typed('light', '--json', file).out));
    expect(answer.corners).toHaveLength(file.startsWith('examples') ? 4 : 0);
  },
);

test('angles are mrad in JSON, with their uncertainty', () => {
  const beam = (file: string) => Answer.parse(oneLine(typed('light', '--json', file).out)).beam!;
  expect(beam(SERVICE).divergence).toBeCloseTo(3, 12);
  expect(
    beam(
      place.file(
        'doubted.alignbook.yaml',
        readFileSync(SERVICE, 'utf8').replace('divergence: 3 mrad', 'divergence: 3 mrad ± 0.2 mrad'),
      ),
    ).u.divergence,
  ).toBeCloseTo(0.2, 9);
});

test('at 9.3 µm every command that prints cautions names eyewear for 9.3 µm', () => {
  const other = place.file(
    'other.alignbook.yaml',
    readFileSync(SERVICE, 'utf8').replace('wavelength: 10.6 um', 'wavelength: 9.3 um').split('---\nmarks: M3')[0]!,
  );
  const begun = place.file('begun.alignbook.yaml', readFileSync(other, 'utf8').split('marks: M1')[0]!);
  expect(typed('next', '--brief', begun).out).toContain('Eyewear (9.3 um)');
  for (const text of [typed('next', begun).out, typed('report', other, '--markdown').out, typed('light', other).out]) {
    expect(text).toContain('9.3 µm');
    expect(text).not.toContain('10.6 µm');
  }
});
