/** The thin lens's formulas against real rays through a thick one. */
import { describe, expect, test } from 'vitest';
import { aberrationSpot, cutLean, spotShift, zincSelenideIndex, type ShapeFactor } from '../../src/optics/index.ts';
import { crossing, paraxialFocus, planoConvex, through, type ThickLens } from './thick-lens.ts';

const index = zincSelenideIndex(0.0106)!;

/** The narrowest disc that a fan of rays from across `diameter` passes, wherever along the beam that is. */
function narrowest(lens: ThickLens, diameter: number): number {
  const fan = Array.from({ length: 400 }, (_, k) => through(lens, (diameter / 2) * ((k + 1) / 400), 0));
  const width = (z: number) => 2 * Math.max(...fan.map((ray) => Math.abs(crossing(ray, z).x)));
  const focus = paraxialFocus(lens);
  let [near, far] = [focus - diameter, focus];
  for (let round = 0; round < 80; round++) {
    const [one, other] = [near + (far - near) / 3, far - (far - near) / 3];
    if (width(one) < width(other)) far = other;
    else near = one;
  }
  return width(near);
}

const WAYS: readonly (readonly [ThickLens['curved'], ShapeFactor])[] = [
  ['to the beam', 1],
  ['to the work', 0],
];

describe.each(WAYS)('curved side %s', (curved, shapeFactor) => {
  test.each([
    [50.8, 6],
    [63.5, 8],
    [38.1, 6],
    [50.8, 12],
  ])('f %d, beam %d: the blur of real rays is what the formula says, to 3 percent', (focal, diameter) => {
    const traced = narrowest(planoConvex(index, focal, curved), diameter);
    const said = aberrationSpot(index, shapeFactor, focal, diameter);
    expect(Math.abs(traced / said - 1)).toBeLessThan(0.03);
  });

  test('a slow lens, very thin: within 0.2 %', () => {
    const traced = narrowest(planoConvex(index, 200, curved, 0.1), 5);
    expect(Math.abs(traced / aberrationSpot(index, shapeFactor, 200, 5) - 1)).toBeLessThan(0.002);
  });

  test.each([
    [-3, 0],
    [-1, 0],
    [1, 0],
    [3, 0],
    [0, 0.02],
    [2, 0.02],
    [2, -0.02],
    [-2, 0.01],
  ])(
    'met %d mm off the middle and %d off plumb, the beam leans as the real ray does, to the same side',
    (offset, slope) => {
      const { direction } = through(planoConvex(index, 50.8, curved), offset, 0, slope);
      const traced = Math.atan2(direction.x, direction.z);
      const said = cutLean(offset, slope, 50.8);
      expect(Math.sign(said)).toBe(Math.sign(traced));
      // 3 mm of glass let an off-plumb ray run on before it is bent.
      expect(Math.abs(said / traced - 1)).toBeLessThan(slope === 0 ? 0.02 : 0.03);
    },
  );

  test.each([-0.02, -0.005, 0.005, 0.02])(
    'off plumb by %d, the spot goes where real rays meet, to the same side',
    (slope) => {
      const lens = planoConvex(index, 50.8, curved);
      const [one, other] = [through(lens, -0.05, 0, slope), through(lens, 0.05, 0, slope)];
      const traced = meeting(one, other);
      const axial = meeting(through(lens, -0.05, 0), through(lens, 0.05, 0));
      const moved = traced - axial;
      const said = spotShift(slope, 50.8);
      expect(Math.sign(said)).toBe(Math.sign(moved));
      expect(Math.abs(said / moved - 1)).toBeLessThan(0.02);
    },
  );
});

/** x where two rays meet. */
function meeting(one: ReturnType<typeof through>, other: ReturnType<typeof through>): number {
  const slope = (ray: typeof one) => ray.direction.x / ray.direction.z;
  const [a, b] = [crossing(one, 0), crossing(other, 0)];
  return a.x + slope(one) * ((b.x - a.x) / (slope(one) - slope(other)));
}
