/**
 * The face of a mount: places as one faces the heads, in = clockwise, and the effect of a turn, against the simulated
 * world of an independent library.
 */
import { expect, test } from 'vitest';
import { screwsFigure } from '../../src/language/index.ts';
import { nominal } from '../../src/optics/index.ts';
import { bookOf } from '../support/workbook.ts';
import { everyLayout, pathOf } from '../optics/layouts.ts';
import { refereeTrace } from '../optics/referee.ts';
import { machineText } from '../drawing/machine-text.ts';

const layouts = everyLayout(2);
test(`the effect of an eighth of a turn agrees with a world of planes and rays, in ${layouts.length} layouts`, () => {
  let compared = 0;
  for (const layout of layouts) {
    const book = bookOf([machineText(layout), 'marks: lens\nshots: {here: centre}\n'].join('---\n'));
    layout.elements.forEach((element, index) => {
      if (element.sends === undefined) return;
      const figure = screwsFigure(book, element.name, 'lens', [])!;
      for (const { name, moves } of figure.screws) {
        const world = (turns: number) =>
          refereeTrace(
            layout,
            nominal(layout),
            layout.elements.map((_, at) => (at === index ? { [name]: turns } : {})),
            {},
          ).at(-1)!;
        const [still, turned] = [world(0), world(1 / 8)];
        expect(moves!.right, `${pathOf(layout)} ${element.name} ${name}`).toBeCloseTo(turned.right - still.right, 1);
        expect(moves!.up, `${pathOf(layout)} ${element.name} ${name}`).toBeCloseTo(turned.up - still.up, 1);
        compared++;
      }
    });
  }
  console.log(`${compared} screws compared`);
  expect(compared).toBe(layouts.length * 2 * 3);
});
