/**
 * The path of the beam, in every layout of two mirrors: marks of a world of another library are written down, and the
 * paper must show the beam on the side of each part that bears the machine's name of where it went, and as far off.
 */
import { describe, expect, test } from 'vitest';
import { toSvg } from '../../src/drawing/index.ts';
import { pathFigure } from '../../src/language/index.ts';
import type { PathFigure } from '../../src/model/index.ts';
import { CENTRED, LIMITS, MACHINE } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';
import { golden } from './golden.ts';

const LOOK = { width: 320, theme: 'light' } as const;

const LOG = after(CENTRED.M1, 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n');
const BOOK = bookOf(LOG);

test('carriages are drawn where requested, never outside their travel', () => {
  const legs = (asked: Readonly<Record<string, number>>) => pathFigure(BOOK, asked)!.carriages.map(({ leg }) => leg);
  const [{ shortest, longest, element }] = pathFigure(BOOK)!.carriages as [PathFigure['carriages'][number]];
  expect(legs({})[0]).toBe(longest);
  expect(legs({ [element]: 300 })[0]).toBe(300);
  expect(legs({ [element]: -1e9 })[0]).toBe(shortest);
  expect(legs({ [element]: 1e9, __proto__: 3 })[0]).toBe(longest);
});

test('clearance is from the edge of the beam to that of the aperture, at the worst place of the travel', () => {
  const figure = pathFigure(BOOK)!;
  const M2 = figure.parts[1]!;
  const { points } = M2.clearance;
  // Marks at either end of the gantry's travel: the middle of the beam is 2.5 and 8.1 mm off in an aperture of 20.
  expect(points[0]!.now).toBeCloseTo(10 - Math.hypot(1.5, 2), 0);
  expect(points.at(-1)!.now).toBeCloseTo(10 - Math.hypot(6, 5.5), 0);
  expect(points.at(-1)!.then).toBeGreaterThan(points.at(-1)!.now! + 3);
  expect(figure.isMoved).toBe(true);
  expect(M2.then!.right).toBeLessThan(M2.mark!.right - 3);
});

describe('the room in a nozzle behind the lens', () => {
  const log = (beam: string, nozzle = '{leg: 40 mm, aperture: 4 mm}') =>
    [
      MACHINE.replace('  fires: left', `  fires: left\n  beam: ${beam}`).replace(
        'focal: 50.8 mm}',
        `focal: 50.8 mm}\n  nozzle: ${nozzle}`,
      ),
      LIMITS,
      ...Object.values(CENTRED),
      'marks: nozzle\nshots: {here: centre}\n',
    ].join('---\n');
  const nozzleOf = (text: string) => pathFigure(bookOf(text))!.parts.find(({ name }) => name === 'nozzle')!;
  /** Radius of the aperture minus the offset of the beam there, for one position of the carriages. */
  const room = (text: string) =>
    nozzleOf(text).aperture / 2 - Math.hypot(nozzleOf(text).mark!.right, nozzleOf(text).mark!.up);

  test('is that of the focused beam: what is left of it at the worst place, by the complex radius of curvature', () => {
    const {
      clearance: { points },
    } = nozzleOf(log('{diameter: 6 mm, divergence: 3 mrad, M2: 1.2}'));
    const {
      clearance: { points: middles },
    } = nozzleOf(log('{diameter: 6 mm}'));
    points.forEach(({ leg, now }, k) => {
      // All of the gantry's travel counts, with the head at `leg`.
      const widths = [130, 690].map((gantry) => focused(90 + gantry + leg + 60, 40));
      const legs = middles[k]!.now! - now!;
      expect(legs).toBeGreaterThan(Math.min(...widths) / 2 - 1e-9);
      expect(legs).toBeLessThan(Math.max(...widths) / 2 + 1e-9);
    });
    // A cone alone: 6 to 9 mm on the lens, of which a fifth is left 40 mm behind it.
    expect(room(log('{diameter: 6 mm, divergence: 3 mrad, M2: 1.2}')) - points.at(-1)!.now!).toBeLessThan(1.2);
  });

  /**
   * The same ray transfer as in light.test.ts; an aperture drilled off the lens's centre and the offset of the beam
   * both count.
   */
  test('is about where the beam passes with the lens fitted, though tape there is shot with it out', () => {
    const off = log('{diameter: 6 mm}')
      .replace(CENTRED.lens, CENTRED.lens.replaceAll('centre', '1.5 right 0 rear'))
      .replace('{here: centre}\n', '{here: 1.5 right 0 rear}\n');
    const [lens, nozzle] = ['lens', 'nozzle'].map(
      (name) => pathFigure(bookOf(off))!.parts.find((part) => part.name === name)!,
    );
    expect(lens!.mark!.right).toBeGreaterThan(1);
    expect(nozzle!.mark!.right).toBeCloseTo(lens!.mark!.right * (1 - 40 / 50.8), 0);
    expect(nozzle!.mark!.right).toBeLessThan(0.6);
  });

  test('beyond the focus the beam opens again', () => {
    const beam = '{diameter: 6 mm, divergence: 3 mrad, M2: 1.2}';
    const least = (leg: number) =>
      Math.min(...nozzleOf(log(beam, `{leg: ${leg} mm, aperture: 4 mm}`)).clearance.points.map(({ now }) => now!));
    expect(least(50)).toBeGreaterThan(least(40));
    expect(least(50)).toBeGreaterThan(least(62));
  });

  test('a tube with a diameter only: clearance is measured from the beam’s centre, which is stated', () => {
    const text = log('{diameter: 6 mm}');
    expect(nozzleOf(text).clearance.points.at(-1)!.now).toBeCloseTo(room(text), 1);
    const svg = toSvg(pathFigure(bookOf(text))!, LOOK);
    expect(svg).toContain('beam centre to aperture edge');
    expect(svg).not.toContain('from the edge of the beam');
  });
});

/**
 * 1/e² diameter behind the thin lens, mm, by 1/q = 1/R − i 4 M² λ/(π d²) and the lens's 1/q − 1/f (H. Kogelnik and T.
 * Li, Laser beams and resonators, Applied Optics 5, 1966, eqs. 17, 20 and 35; from memory), for 6 mm, 3 mrad and M² 1.2
 * of 10.6 µm.
 */
function focused(along: number, beyond: number): number {
  const [diameter, divergence, spreading] = [6, 0.003, (4 * 1.2 * 0.0106) / Math.PI];
  const waist = spreading / divergence;
  const rayleigh = waist / divergence;
  const q: Complex = [Math.sqrt((diameter / waist) ** 2 - 1) * rayleigh + along, rayleigh];
  const [real, imaginary] = inverse(q);
  const [behind, height] = inverse([real - 1 / 50.8, imaginary]);
  return Math.sqrt(-spreading / inverse([behind + beyond, height])[1]);
}

type Complex = readonly [real: number, imaginary: number];

function inverse([real, imaginary]: Complex): Complex {
  const size = real ** 2 + imaginary ** 2;
  return [real / size, -imaginary / size];
}

test('without a machine there is no path', () => expect(pathFigure(bookOf('note: nothing yet\n'))).toBeUndefined());

test('as it was drawn', () => golden('path', toSvg(pathFigure(BOOK)!, LOOK)));
