/**
 * One way through all frames: a screw is turned in a world of another library, its mark written down as a person would,
 * and the figure must show it on the side that bears the machine's name of where the beam went. Every layout of two
 * mirrors, mirrored ones among them, seen along the beam and from behind.
 */
import { expect, test } from 'vitest';
import { pointInWords, fitted, tapeScale, toSvg } from '../../src/drawing/index.ts';
import { targetFigure } from '../../src/language/index.ts';
import { isVertical, type TargetFigure } from '../../src/model/index.ts';
import {
  directionVector,
  dot,
  nearestDirection,
  nominal,
  scale,
  add,
  arriving,
  type Direction,
  type Vector,
} from '../../src/optics/index.ts';
import { bookOf } from '../support/workbook.ts';
import { machineText } from './machine-text.ts';
import { everyLayout, pathOf } from '../optics/layouts.ts';
import { lookAlong, refereeTrace } from '../optics/referee.ts';

const WIDTH = 320;
const layouts = everyLayout(2);
let points = 0;

test.each(layouts.map((layout) => [pathOf(layout), layout] as const))('%s', (_, layout) => {
  const marks = refereeTrace(
    layout,
    nominal(layout),
    layout.elements.map((_element, at) => (at < 2 ? { A: 0.05, B: 0.08 } : {})),
    {},
  );
  layout.elements.forEach(({ name }, at) => {
    if (at === 0) return;
    const runs = arriving(layout, at);
    const { right, up } = lookAlong(runs);
    // Where the beam went on the machine, mm: of what a person reads, to the tenth.
    const read = { right: tenth(marks[at]!.right), up: tenth(marks[at]!.up) };
    const went = add(scale(right.toArray(), read.right), scale(up.toArray(), read.up));
    const book = bookOf(
      [
        machineText(layout),
        `marks: ${name}\nshots: {here: ${written(read, runs, [right.toArray(), up.toArray()])}}\n`,
      ].join('---\n'),
    );
    expect(book.findings().filter(({ code }) => code.startsWith('mark.'))).toEqual([]);
    const figure = targetFigure(book, name)!;
    for (const behind of [false, true]) compare(figure, behind, went);
  });
});

test('points were compared', () => {
  expect(points).toBe(layouts.length * 2 * 2);
});

function compare(figure: TargetFigure, behind: boolean, went: Vector): void {
  points++;
  const scale = tapeScale(fitted(figure), WIDTH, behind);
  const [mark] = figure.marks;
  const point = scale.at(mark!);
  const along = labels(toSvg(figure, { width: WIDTH, theme: 'light', behind }));
  // Right and up in the drawing, by the labels of its sides.
  expect((point.x - scale.centre.x) / scale.per).toBeCloseTo(dot(went, directionVector(along.right)), 6);
  expect((scale.centre.y - point.y) / scale.per).toBeCloseTo(dot(went, directionVector(along.top)), 6);
  expect(dot(directionVector(along.left), directionVector(along.right))).toBe(-1);
  expect(dot(directionVector(along.bottom), directionVector(along.top))).toBe(-1);
  // A click there gives the same point, in the direction words of the same machine.
  const clicked = scale.from(point);
  expect(clicked.right).toBeCloseTo(mark!.right, 9);
  expect(clicked.up).toBeCloseTo(mark!.up, 9);
  const machine = pointInWords(clicked, figure)
    .split(', ')
    .map((part) =>
      part
        .replace(/\)| mm$/g, '')
        .split(' ')
        .at(-1),
    );
  const moved = [0, 1, 2].filter((axis) => Math.abs(went[axis]!) > 0.05);
  const named = moved.map((axis) =>
    nearestDirection([0, 1, 2].map((k) => (k === axis ? Math.sign(went[axis]!) : 0)) as unknown as Vector),
  );
  expect(machine.toSorted()).toEqual(moved.length === 0 ? ['middle'] : named.toSorted());
}

/** The machine's direction word on each side of the picture. */
function labels(svg: string): Readonly<Record<'left' | 'right' | 'top' | 'bottom', Direction>> {
  const match = [...svg.matchAll(/<text class="small"[^>]*>([^<]*[◂▸▴▾][^<]*)<\/text>/g)].map(([, text]) => text!);
  const rows = [...svg.matchAll(/<text class="small" x="(\d+)"[^>]*>\(machine (\w+)\)<\/text>/g)];
  const word = (arrow: string) =>
    match
      .find((text) => text.includes(arrow))!
      .replace(/[◂▸▴▾()]/g, '')
      .trim()
      .split(/[ ,]+/)
      .at(-1) as Direction;
  // A narrow tape has the machine's words below, in a row of their own.
  const below = (at: 'left' | 'right') =>
    rows.find(([, x]) => (at === 'left' ? x === '0' : x !== '0'))?.[2] as Direction | undefined;
  return {
    left: below('left') ?? word('◂'),
    right: below('right') ?? word('▸'),
    top: word('▴'),
    bottom: word('▾'),
  };
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** In the viewer's words; on an upright leg in the machine's. */
function written(
  { right, up }: { right: number; up: number },
  runs: Direction,
  axes: readonly [Vector, Vector],
): string {
  const words: readonly [string, string][] = isVertical(runs)
    ? axes.map((axis) => [nearestDirection(axis), nearestDirection(scale(axis, -1))] as [string, string])
    : [
        ['right', 'left'],
        ['up', 'down'],
      ];
  const part = (value: number, [positive, negative]: [string, string]) =>
    value === 0 ? '' : `${Math.abs(value)} ${value > 0 ? positive : negative}`;
  return [part(right, words[0]!), part(up, words[1]!)].filter(Boolean).join(' ') || 'centre';
}
