/**
 * The face of a mount: places as one faces the heads, in = clockwise, and what a turn does, against another library's
 * world.
 */
import { expect, test } from 'vitest';
import { toSvg } from '../../src/drawing/index.ts';
import { panelView } from '../../src/language/index.ts';
import type { ScrewsFigure } from '../../src/model/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';
import { golden } from './golden.ts';

const ROUND = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';
const SHEET = panelView(bookOf(after(CENTRED.M1, ROUND)), {})!;
const [FIGURE] = SHEET.mounts;
const LOOK = { width: 300, theme: 'light' } as const;

test('the dials show the advised turns', () => {
  const advised = bookOf(after(CENTRED.M1, ROUND))
    .evaluation()
    .steps.flatMap((step) => (step.kind === 'turn' ? [[step.part, step.screw, step.turns]] : []));
  expect(advised.length).toBeGreaterThan(0);
  expect(
    SHEET.mounts.flatMap(({ part, screws }) =>
      screws.filter(({ turns }) => turns !== 0).map(({ name, turns }) => [part, name, turns]),
    ),
  ).toEqual(advised);
});

test('right is right and up is up, as one faces the heads, wherever these are', () => {
  for (const heads of ['behind', 'beam side'] as const) {
    const dials = dialsOf({ ...FIGURE!, heads });
    expect(dials['B']!.x).toBeGreaterThan(dials['C']!.x);
    expect(dials['A']!.y).toBeLessThan(dials['C']!.y);
    expect(dials['A']!.x).toBe(dials['C']!.x);
    expect(dials['B']!.x - dials['C']!.x).toBeCloseTo(dials['C']!.y - dials['A']!.y, 0);
  }
});

/** The angle of the arrow's tip from the top, clockwise, degrees: −180 … 180; and whether the ring is closed. */
function tipOf(turns: number, hand: ScrewsFigure['hand']): number {
  const svg = toSvg({ ...FIGURE!, hand, screws: [{ ...FIGURE!.screws[0]!, turns }] }, LOOK);
  const [, x, y] = /class="tip" d="M(-?[\d.]+) (-?[\d.]+)L/.exec(svg)!.map(Number);
  return (Math.atan2(x!, -y!) * 180) / Math.PI;
}

test.each(['right', 'left'] as const)('the tip of an arrow is at the angle of the turn: %s-hand thread', (hand) => {
  let compared = 0;
  for (let sixteenths = -15; sixteenths <= 15; sixteenths++) {
    if (sixteenths === 0) continue;
    const turned = (hand === 'right' ? 1 : -1) * (sixteenths / 16) * 360;
    const off = (((tipOf(sixteenths / 16, hand) - turned) % 360) + 540) % 360;
    expect(Math.abs(off - 180)).toBeLessThan(1);
    compared++;
  }
  // More than one turn is a full ring, and the number states it.
  expect(Math.abs(tipOf(1.5, hand))).toBeLessThan(1);
  console.log(`${compared} turns compared`);
});

test('in is called clockwise; with a left-hand thread anticlockwise', () => {
  expect(toSvg(FIGURE!, LOOK)).toMatch(
    /A \(upper left\): out 5\/16, anticlockwise; 13\.5 mm at the rim[^]*B \(lower right\): in 1\/4, clockwise; 11 mm at the rim/,
  );
  const text = after(CENTRED.M1, ROUND).replace('thread: M4', 'thread: M4 LH');
  const [drawn] = panelView(bookOf(text), {})!.mounts;
  expect(toSvg(drawn!, LOOK)).toMatch(
    /A \(upper left\): out 5\/16, clockwise: left-hand thread; 13\.5 mm at the rim[^]*B \(lower right\): in 1\/4, anticlockwise: left-hand thread; 11 mm at the rim/,
  );
});

test('the screws of a mount without places are drawn in a row, which is stated', () => {
  const { place: _, moves: __, ...bare } = FIGURE!.screws[0]!;
  const unknown: ScrewsFigure = {
    ...FIGURE!,
    screws: [
      { ...bare, name: 'top', turns: 0.125 },
      { ...bare, name: 'side', turns: 0 },
    ],
  };
  const dials = dialsOf(unknown);
  expect(dials['top']!.y).toBe(dials['side']!.y);
  expect(toSvg(unknown, LOOK)).toContain('its place is not in the workbook');
  expect(toSvg(unknown, LOOK)).toContain('places not measured');
});

test('the picture is as it was', () => golden('screws', toSvg(FIGURE!, LOOK)));

/** Middles of the dials by the names on them. */
function dialsOf(figure: ScrewsFigure): Record<string, { x: number; y: number }> {
  const match = [
    ...toSvg(figure, LOOK).matchAll(
      /<g transform="translate\(([\d.]+) ([\d.]+)\)"><g><circle class="ink" r="21".*?<text class="name" y="4" text-anchor="middle">(\w+)</g,
    ),
  ];
  return Object.fromEntries(match.map(([, x, y, name]) => [name, { x: Number(x), y: Number(y) }]));
}
