/** Where the parts of the panel stand: computed from the size of the container alone. */
import { expect, test } from 'vitest';
import { tapeHeight } from '../../src/drawing/index.ts';
import { layoutFor } from '../../src/preview/panel/layout.ts';

const end = ({ strip, path, bar, tape }: ReturnType<typeof layoutFor>) => strip + path + bar + tapeHeight(tape);

test('beside the text the tape leaves room for the shots, and the bench scrolls below', () => {
  const layout = layoutFor(560, 860);
  expect(layout).toEqual({ mode: 'middle', strip: 72, path: 90, bar: 38, tape: 352, pinned: 'all' });
  expect(end(layout)).toBe(588);
});

test('from 700 on the bench stands beside the tape', () => {
  expect(layoutFor(900, 860)).toMatchObject({ mode: 'wide', tape: 540, pinned: 'all' });
  expect(layoutFor(700, 860)).toMatchObject({ mode: 'wide', tape: 340 });
  expect(layoutFor(699, 860)).toMatchObject({ mode: 'middle' });
});

test('below 480 the button has a row of its own, and the tape the full width', () =>
  expect(layoutFor(300, 800)).toEqual({ mode: 'narrow', strip: 112, path: 86, bar: 38, tape: 276, pinned: 'all' }));

test('in a low window first the words of the path go, then the tape shrinks, then only the strip is pinned', () => {
  expect(layoutFor(560, 730)).toMatchObject({ path: 62, tape: 352, pinned: 'all' });
  expect(layoutFor(560, 700)).toMatchObject({ path: 62, pinned: 'all' });
  expect(layoutFor(560, 700).tape).toBeLessThan(352);
  expect(layoutFor(560, 400)).toMatchObject({ path: 90, tape: 352, pinned: 'strip' });
  expect(layoutFor(280, 430)).toMatchObject({ mode: 'narrow', pinned: 'strip' });
});

test('at least 160 pixels are left to scroll, or nothing but the strip is pinned', () => {
  let looked = 0;
  for (let width = 200; width <= 1600; width += 20)
    for (let height = 200; height <= 1200; height += 20) {
      const layout = layoutFor(width, height);
      if (layout.pinned === 'strip') continue;
      looked++;
      if (layout.mode === 'wide') expect(end(layout)).toBeLessThanOrEqual(height);
      else expect(height - end(layout)).toBeGreaterThanOrEqual(160);
      expect(layout.tape).toBeLessThanOrEqual(width);
    }
  console.log(`${looked} sizes`);
  expect(looked).toBeGreaterThan(1000);
});
