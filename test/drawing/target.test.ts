/** The picture of a tape: what a person must be able to see in it. */
import { expect, test } from 'vitest';
import { drawTarget, type Target } from '../../src/drawing/index.ts';

const TARGET: Target = {
  station: 'M2', aperture: 20, limit: 2, frame: { runs: 'front', right: 'left', up: 'up' }, stale: false,
  marks: [{ place: 'near', right: 1.5, up: -2, u: 0.25 }, { place: 'far', right: 6, up: 5.5, u: 0.25 }],
};

/** Middle of the shape that bears a letter. */
function letterAt(svg: string, letter: string): { x: number; y: number } {
  const [, x, y] = new RegExp(`<text x="([-\\d.]+)" y="([-\\d.]+)" text-anchor="middle" font-size="10" font-weight="bold" fill="#ffffff">${letter}<`).exec(svg)!;
  return { x: Number(x), y: Number(y) };
}

test('right is right and up is up, as one looks along the beam', () => {
  const svg = drawTarget(TARGET);
  expect(letterAt(svg, 'F').x).toBeGreaterThan(letterAt(svg, 'N').x);
  expect(letterAt(svg, 'F').y).toBeLessThan(letterAt(svg, 'N').y);
});

test('both names of a side stand there where they differ, the machine’s alone on an upright leg', () => {
  expect(drawTarget(TARGET)).toMatch(/>right<tspan [^>]*>machine left</);
  const upright = drawTarget({ ...TARGET, frame: { runs: 'down', right: 'right', up: 'rear' } });
  expect(upright).toContain('>rear<');
  expect(upright).not.toContain('machine ');
});

test('places are told apart by letter and shape, not by colour alone; stale marks are said to be so', () => {
  expect(drawTarget({ ...TARGET, stale: true })).toContain('>stale<');
  const shapes = drawTarget(TARGET).match(/<(?:circle|rect) [^>]*stroke="#ffffff"/g)!.map((shape) => shape.slice(0, 5));
  expect(new Set(shapes)).toEqual(new Set(['<circ', '<rect']));
});

test('nothing of the user’s gets out of its text, and a mark far outside stays in the picture', () => {
  const svg = drawTarget({ ...TARGET, station: '<script>', marks: [{ place: '"><x', right: 1e6, up: 0, u: 0.25 }] });
  expect(svg).not.toContain('<script>');
  expect(svg).not.toContain('"><x');
  expect(letterAt(svg, '&quot;').x).toBeLessThan(380);
});
