/**
 * The path of the beam, in every layout of two mirrors: marks of a simulated world of an independent library are
 * logged, and the drawing must show the beam on the side of each part that is labelled with the machine's direction of
 * the mark, at the same distance.
 */
import { expect, test } from 'vitest';
import { toSvg } from '../../src/drawing/index.ts';
import { pathFigure } from '../../src/language/index.ts';
import type { Displacement, PathFigure } from '../../src/model/index.ts';
import { add, arriving, directionVector, dot, nominal, scale, type Vector } from '../../src/optics/index.ts';
import { bookOf } from '../support/workbook.ts';
import { machineText } from '../drawing/machine-text.ts';
import { everyLayout, pathOf } from '../optics/layouts.ts';
import { lookAlong, refereeTrace } from '../optics/referee.ts';

const LOOK = { width: 320, theme: 'light' } as const;
/** Machine axes that run right and up in the drawing: from above, from the front, from the right. */
const VIEWS = [
  [0, 1],
  [0, 2],
  [1, 2],
] as const;
const layouts = everyLayout(2);
let compared = 0;

test.each(layouts.map((layout) => [pathOf(layout), layout] as const))('%s', (_, layout) => {
  const marks = refereeTrace(
    layout,
    nominal(layout),
    layout.elements.map((_element, at) => (at < 2 ? { A: 0.05, B: 0.08 } : {})),
    {},
  );
  const cells = layout.elements.map(
    ({ name }, at) => `marks: ${name}\nshots: {here: {right: ${marks[at]!.right} mm, up: ${marks[at]!.up} mm}}\n`,
  );
  const figure = pathFigure(bookOf([machineText(layout), ...cells].join('---\n')))!;
  layout.elements.forEach((element, at) => {
    const runs = arriving(layout, at);
    const { right, up } = lookAlong(runs);
    const part = figure.parts[at]!;
    expect([directionVector(part.frame.right), directionVector(part.frame.up)]).toEqual(
      [right.toArray(), up.toArray()].map((axis) => axis.map((value) => expect.closeTo(value, 9))),
    );
    // The beam is drawn at the marks on the tapes, within the reading step of half a millimetre.
    expect(part.mark!.right).toBeCloseTo(marks[at]!.right, 0);
    expect(part.mark!.up).toBeCloseTo(marks[at]!.up, 0);
    // On the plate: at the same distance from the middle as on the tape, and in the plane of the plate.
    const beside = add(scale(right.toArray(), part.mark!.right), scale(up.toArray(), part.mark!.up));
    const along = directionVector(runs);
    expect(add(part.met!, scale(along, -dot(along, part.met!)))).toEqual(
      beside.map((value) => expect.closeTo(value, 9)),
    );
    if (element.sends !== undefined)
      expect(dot(part.met!, add(along, scale(directionVector(element.sends), -1)))).toBeCloseTo(0, 9);
  });
  compare(figure);
});

test('places were compared', () => {
  console.log(`${compared} places on paper of ${layouts.length} layouts`);
  expect(compared).toBe(layouts.length * VIEWS.length * 4);
});

/** For each view, the offset of the beam from the chain line through the middles. */
function compare(figure: PathFigure): void {
  const svg = toSvg(figure, LOOK);
  const factor = Number(/beam, offset drawn × (\d+)/.exec(svg)![1]);
  const bar = /<path d="M[\d.]+ 8v4h([\d.]+)v-4"[^>]*><\/path><text[^>]*>(\d+) mm/.exec(svg)!.slice(1).map(Number);
  const per = bar[0]! / bar[1]!;
  const axes = [...svg.matchAll(/<path d="([^"]*)"[^>]*stroke-dasharray="9 3 2 3"/g)].map(([, d]) => spots(d!));
  const beams = [...svg.matchAll(/<g style="stroke:var\(--ink\);?" stroke-width="1.6" fill="none">(.*?)<\/g>/g)].map(
    ([, legs]) => [...legs!.matchAll(/ d="([^"]*)"/g)].map(([, d]) => spots(d!)),
  );
  const offs: readonly Displacement[] = [figure.tube.off, ...figure.parts.map(({ met }) => met!)];
  VIEWS.forEach(([across, upward], view) => {
    offs.forEach((off, k) => {
      const middle = axes[view]![k]!;
      const at = k === 0 ? beams[view]![0]![0]! : beams[view]![k - 1]![1]!;
      expect(at[0] - middle[0]).toBeCloseTo(off[across] * factor * per, 0);
      expect(middle[1] - at[1]).toBeCloseTo(off[upward] * factor * per, 0);
      compared++;
      const place = (k === 0 ? [0, 0, 0] : figure.parts[k - 1]!.at) as Vector;
      expect(middle[0] - axes[view]![0]![0]).toBeCloseTo(place[across] * per, 0);
      expect(axes[view]![0]![1] - middle[1]).toBeCloseTo(place[upward] * per, 0);
    });
  });
}

function spots(d: string): (readonly [number, number])[] {
  return [...d.matchAll(/[ML]([-\d.]+),([-\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
}
