/**
 * A stop called near or far is shown with what it is near to or far from, and at which end of the machine, however the
 * machine is built.
 */
import { afterAll, describe, expect, test } from 'vitest';
import { splitCells } from '../../src/cells/index.ts';
import { evaluated } from '../../src/cli/evaluated.ts';
import { createGuide, expressions, hoverAt } from '../../src/language/index.ts';
import { threads } from '../../src/machine/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

/**
 * Fires, then where each mirror sends it; and the machine's ends at which M2 is near M1 and far from it, M3 near M2 and
 * far from it.
 */
const LAYOUTS: readonly (readonly [
  fires: string,
  M1: string,
  M2: string,
  M3: string,
  ends: readonly [string, string, string, string],
])[] = [
  ['left', 'front', 'right', 'down', ['rear', 'front', 'left', 'right']],
  ['right', 'front', 'left', 'down', ['rear', 'front', 'right', 'left']],
  ['rear', 'right', 'front', 'down', ['left', 'right', 'rear', 'front']],
  ['front', 'left', 'rear', 'down', ['right', 'left', 'front', 'rear']],
  ['left', 'up', 'right', 'down', ['bottom', 'top', 'left', 'right']],
  ['right', 'down', 'front', 'left', ['top', 'bottom', 'rear', 'front']],
];

const CORNERS = ['near', 'far'].flatMap((gantry) => ['near', 'far'].map((head) => [gantry, head] as const));
const mark = (right: number, up: number) => `{right: ${right}, up: ${up}}`;
const M2 = (right: number) => `marks: M2\nshots: {near: ${mark(0.5, 0)}, far: ${mark(right, 0)}}\n`;
const CELLS = [
  'session: spring\ndate: 2026-03-01\nby: kt\n',
  `marks: M1\nshots: ${mark(0.5, 0)}\n`,
  M2(4),
  'adjust: M1\nturn: {A: in 1/8, B: out 1/8}\n',
  M2(1),
  `marks: M3\nshots:\n${CORNERS.map(([gantry, head]) => `  - {at: ${head}, with: {M2: ${gantry}}, mark: ${mark(head === 'far' ? 3 : 0, 0.5)}}\n`).join('')}`,
  'adjust: M2\nturn: {A: in 1/16}\n',
  `marks: M3\nshots:\n${CORNERS.map(([gantry, head]) => `  - {at: ${head}, with: {M2: ${gantry}}, mark: ${mark(0, gantry === 'far' ? 0.5 : 0)}}\n`).join('')}`,
  `marks: lens\nshots:\n${CORNERS.map(([gantry, head]) => `  - {at: here, with: {M2: ${gantry}, M3: ${head}}, mark: ${mark(0.5, 0)}}\n`).join('')}`,
  'release: in service\nby: kt\n',
  'session: summer\ndate: 2026-06-01\nby: kt\n',
  `marks: M1\nshots: ${mark(0.5, 0)}\n`,
  M2(3.5),
];

/** Neither what it is near to, nor its end. A cell to copy, and what stands in backticks, are the words of the file. */
const BARE =
  /\b(?:near(?! (?:M\d|the|its)\b)|(?<!how |as )far(?! from (?:M\d|the tube)\b))\b(?! \((?:front|rear|left|right|top|bottom)\)|, (?:front|rear|left|right|top|bottom)\b).{0,40}/g;
const bare = (text: string) =>
  [
    ...decoded(text)
      .replace(/^ +\|.*$/gm, '')
      .replace(/`[^`\n]*`/g, '')
      .replace(/\s+/g, ' ')
      .matchAll(BARE),
  ].map(([result]) => result);
const decoded = (text: string) =>
  text.replace(/%[0-9A-F]{2}/g, (code) => String.fromCharCode(parseInt(code.slice(1), 16)));

describe.each(LAYOUTS)('%s, %s, %s, %s', (fires, first, second, third, ends) => {
  const name = [fires, first, second, third].join('-');
  const sends = [first, second, third];
  const machine = MACHINE.replace('fires: left', `fires: ${fires}`).replace(
    /sends: \w+/g,
    () => `sends: ${sends.shift()!}`,
  );
  const text = [machine, LIMITS, ...CELLS].join('---\n');
  const cells = splitCells(text).cells;
  const grown = cells
    .slice(1)
    .map(({ start, text: cell }, k) => place.file(`${name}-${k}.alignbook.yaml`, text.slice(0, start + cell.length)));
  const whole = grown.at(-1)!;

  test('next, after every cell', () => {
    const text = grown.map((file) => typed('next', file).out);
    expect(text.flatMap(bare)).toEqual([]);
    const flat = text.join(' ').replace(/\s+/g, ' ');
    for (const end of [
      `gantry near M1 (${ends[0]})`,
      `gantry far from M1 (${ends[1]})`,
      `head near M2 (${ends[2]})`,
      `head far from M2 (${ends[3]})`,
    ])
      expect(flat).toContain(end);
  });

  test.each([
    ['check'],
    ['sessions'],
    ['light'],
    ['report', '--markdown'],
    ['report'],
    ['draw', '--station', 'M3'],
    ['draw', '--path'],
    ['draw', '--screws', 'M1'],
    ['draw', '--visits', 'M2'],
  ])('%s %s', (...words) => {
    const [command, ...options] = words.filter((word) => word !== undefined);
    expect(bare(typed(command!, whole, ...options).out)).toEqual([]);
  });

  test('over the text', () => {
    const guide = createGuide();
    const { book } = evaluated(whole, { threads, expressions });
    const hovers = new Set(Array.from({ length: text.length / 4 }, (_, k) => hoverAt(book!, guide, 4 * k)?.text ?? ''));
    expect([...hovers].flatMap(bare)).toEqual([]);
  });
});
