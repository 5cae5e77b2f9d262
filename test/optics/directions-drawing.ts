/**
 * The table of directions as text, with a plan of each machine: for the handbook.
 *
 * One usual machine for each way in which a tube can fire. Numbers and words come from the product, which the tests
 * hold against an independent library for every layout, so that what is printed in the handbook is what is tested.
 *
 * Plan: seen from above, the machine's right at the right and its rear at the top; at most 78 columns.
 */
import { directionVector, nearestDirection, type Direction, type Layout, type Vector } from '../../src/optics/index.ts';
import { byProduct, directionsTable, type Move, type Row } from './directions-table.ts';
import { layoutOf, pathOf } from './layouts.ts';

/** The usual machine for each firing direction: the pose of the tube, and where M1, M2 and M3 send the beam. */
const FAMILIES: readonly (readonly [Direction, string, readonly Direction[]])[] = [
  ['left', 'tube along the rear, exit at its left end', ['front', 'right', 'down']],
  ['right', 'tube along the rear, exit at its right end', ['front', 'left', 'down']],
  ['rear', 'tube along the left side, exit at the rear', ['right', 'front', 'down']],
  ['front', 'tube along the left side, exit at the front', ['right', 'rear', 'down']],
  ['up', 'tube upright, below the first mirror', ['front', 'right', 'down']],
  ['down', 'tube upright, above the first mirror', ['front', 'left', 'down']],
];

const LEGEND = `Plans are seen from above, the rear at the top: you stand below the drawing.
\`(o)\` marks a mirror that an upright beam comes up to or leaves upward, \`(x)\`
one that it comes down to or leaves downward, to the lens.

Right and up of a mark are the viewer’s, who looks along the beam; the table
gives the machine’s words for them. Columns A, B and C tell where one tenth of
a turn **in** of that screw, at the mirror *before* the tape, sends the mark:
mm, in the machine’s words, at the far stops (legs of 90, 690, 910, 60 mm).
The screws are M4 on three corners of a 44 mm square, A upper left, B lower
right, C lower left as seen from behind; turning in moves that corner toward
the beam.

A corner that comes toward the beam pushes the beam away from that corner.`;

/** Markdown: how to read it, then a heading, a plan and a table for each family. */
export function drawDirections(): string {
  return `${[LEGEND, ...FAMILIES.map(([fires, tube, path]) => drawFamily(tube, layoutOf(fires, path)))].join('\n\n')}\n`;
}

function drawFamily(tube: string, layout: Layout): string {
  const heading = `#### ${pathOf(layout)}`;
  return [heading, '', '```text', `  ${tube}`, '', ...drawPlan(layout), '', ...drawTable(layout), '```'].join('\n');
}

const HEAD = [
  '  tape   beam    a mark’s        one tenth of a turn IN at the mirror before',
  '         runs    right   up      A             B             C',
  `  ${'-'.repeat(74)}`,
];

function drawTable(layout: Layout): readonly string[] {
  const rows = directionsTable(layout, byProduct);
  return [
    ...HEAD,
    ...rows.flatMap((row, at) =>
      drawRow(
        row,
        row.moves.filter(({ mirror }) => mirror === at - 1),
      ),
    ),
  ];
}

function drawRow({ tape, runs, right, up }: Row, moves: readonly Move[]): readonly string[] {
  const names = [
    tape.padEnd(7),
    runs.padEnd(8),
    nearestDirection(right).padEnd(8),
    nearestDirection(up).padEnd(8),
  ].join('');
  if (moves.length === 0) return [`  ${names}no screw moves it`];
  return [
    `  ${names}${moves.map(({ across }) => inWords(across).padEnd(14)).join('')}`,
    `  ${' '.repeat(names.length)}${moves.map(({ above }) => inWords(above).padEnd(14)).join('')}`,
  ].map((line) => line.trimEnd());
}

/** `2.24 right`; a dot for a move too small to read on tape. */
function inWords(move: Vector): string {
  const size = Math.hypot(...move).toFixed(2);
  return size === '0.00' ? '.' : `${size} ${nearestDirection(move)}`;
}

/** Characters from one element to the next, across and down the page. */
const STEP = { across: 16, down: 4 };

/** A name on the page, at its first character. */
interface Label {
  readonly column: number;
  readonly row: number;
  readonly text: string;
}

/** Along the beam, down to the last mirror. An upright leg leads nowhere on a plan: it is marked instead. */
function drawPlan(layout: Layout): readonly string[] {
  const page = new Map<string, string>();
  let leg = layout.fires;
  let before: Label | undefined = isUpright(leg) ? undefined : { column: 0, row: 0, text: 'tube' };
  if (before) write(page, before);
  for (const { name, sends } of layout.elements) {
    if (sends === undefined) break;
    const marks = [leg, sends].filter(isUpright).map((upright) => (upright === 'up' ? ' (o)' : ' (x)'));
    const label: Label = { ...next(before, leg), text: name + marks.join('') };
    write(page, label);
    if (before) drawLeg(page, before, label, leg);
    [before, leg] = [label, sends];
  }
  return linesOf(page);
}

const isUpright = (leg: Direction): boolean => leg === 'up' || leg === 'down';

function next(before: Label | undefined, leg: Direction): { column: number; row: number } {
  const [x, y] = directionVector(leg);
  return { column: (before?.column ?? 0) + x * STEP.across, row: (before?.row ?? 0) - y * STEP.down };
}

/** The shaft and the head of a level leg, clear of the names at both ends. */
function drawLeg(page: Map<string, string>, from: Label, to: Label, leg: Direction): void {
  if (leg === 'left' || leg === 'right') {
    const [first, second] = leg === 'right' ? [from, to] : [to, from];
    const column = first.column + first.text.length + 1;
    const shaft = '-'.repeat(second.column - column - 2);
    write(page, { column, row: from.row, text: leg === 'right' ? `${shaft}>` : `<${shaft}` });
    return;
  }
  const down = Math.sign(to.row - from.row);
  for (let row = from.row + down; row !== to.row; row += down) write(page, { column: from.column, row, text: '|' });
  write(page, { column: to.column, row: to.row - down, text: leg === 'front' ? 'v' : '^' });
}

function write(page: Map<string, string>, { column, row, text }: Label): void {
  [...text].forEach((character, at) => page.set(`${column + at} ${row}`, character));
}

function linesOf(page: ReadonlyMap<string, string>): readonly string[] {
  const places = [...page.keys()].map((key) => key.split(' ').map(Number) as [number, number]);
  const [left, right] = [Math.min(...places.map(([x]) => x)), Math.max(...places.map(([x]) => x))];
  const [top, bottom] = [Math.min(...places.map(([, y]) => y)), Math.max(...places.map(([, y]) => y))];
  return Array.from({ length: bottom - top + 1 }, (_, row) => {
    const at = (_: unknown, column: number): string => page.get(`${left + column} ${top + row}`) ?? ' ';
    return `        ${Array.from({ length: right - left + 1 }, at).join('')}`.trimEnd();
  });
}
