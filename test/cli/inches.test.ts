/** A machine that is described in inches: every command shows inches; programs read millimetres. */
import { readFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import { splitCells } from '../../src/cells/index.ts';
import { evaluated } from '../../src/cli/evaluated.ts';
import { createGuide, hintsOf, hoverAt, expressions, panelView, statusOf } from '../../src/language/index.ts';
import { threads } from '../../src/machine/index.ts';
import { lengthsIn } from '../../src/model/index.ts';
import { folder, typed } from './terminal.ts';

const EXAMPLE = new URL('../../examples/4-inches.alignbook.yaml', import.meta.url).pathname;
const MACHINE = readFileSync(new URL('../../examples/machines/bollard.alignbook.yaml', import.meta.url), 'utf8');
const text = readFileSync(EXAMPLE, 'utf8');

const place = folder();
afterAll(() => place.remove());
place.file('machines/bollard.alignbook.yaml', MACHINE);

/** The log as it grew, cell by cell. */
const grown = splitCells(text)
  .cells.slice(2)
  .map(({ start, text: cell }, k) => place.file(`${k}.alignbook.yaml`, text.slice(0, start + cell.length)));

/** `mm` that is no part of a style sheet. */
const millimetres = (out: string) =>
  [...out.replace(/<style>.*?<\/style>/gs, '').matchAll(/.{0,60}\bmm\b.{0,20}/g)].map(([result]) => result);

const COMMANDS: readonly (readonly string[])[] = [
  ['next'],
  ['check'],
  ['sessions'],
  ['care'],
  ['light'],
  ['report', '--markdown'],
  ['report'],
  ['draw', '--station', 'M2'],
  ['draw', '--station', 'nozzle'],
  ['draw', '--rounds', 'M2'],
  ['draw', '--visits', 'M2'],
  ['draw', '--screws', 'M1'],
  ['draw', '--path'],
];

test.each(COMMANDS)('%s %s %s', (...words) => {
  const [command, ...options] = words.filter((word) => word !== undefined);
  const { out, error } = typed(command!, EXAMPLE, ...options);
  expect([millimetres(out), error]).toEqual([[], '']);
  expect(out.length).toBeGreaterThan(command === 'check' ? -1 : 100);
});

test.each(['next', 'check', 'sessions'])('%s after every cell', (command) => {
  const text = grown.map((file) => typed(command, file).out);
  expect(text.flatMap(millimetres)).toEqual([]);
  if (command === 'next') expect(text.join('\n')).toMatch(/at the rim/);
});

test('what an editor shows beside the text, over it and in its panel', () => {
  const guide = createGuide();
  for (const file of [EXAMPLE, ...grown]) {
    const { book } = evaluated(file, { threads, expressions });
    const hints = hintsOf(book!, 0, book!.text.length).flatMap(({ label, tooltip }) => [label, tooltip]);
    expect(
      [...hints, JSON.stringify(statusOf(book!)), JSON.stringify(panelView(book!, {}))].flatMap(millimetres),
    ).toEqual([]);
  }
  const { book } = evaluated(EXAMPLE, { threads, expressions });
  const hovers = new Set(Array.from({ length: text.length / 3 }, (_, k) => hoverAt(book!, guide, 3 * k)?.text ?? ''));
  expect(
    [...hovers].flatMap((hover) =>
      millimetres(hover.replace(/%[0-9A-F]{2}/g, (code) => String.fromCharCode(parseInt(code.slice(1), 16)))),
    ),
  ).toEqual([]);
  expect(hovers.size).toBeGreaterThan(20);
});

test('limits are printed as written, marks as fractions of a rule, and the unit of bare numbers is stated', () => {
  const { out } = typed('next', EXAMPLE);
  expect(out).toMatch(/limit 3\/32 in/);
  expect(out).toMatch(/gantry near M1 \(rear\): 1\/32 in left/);
  expect(out.replace(/\s+/g, ' ')).toContain('Marks are in inches here');
});

test('programs read millimetres', () => {
  const answer = JSON.parse(typed('next', '--json', EXAMPLE).out) as {
    stations: { name: string; requirements: { max: number }[] }[];
  };
  expect(answer.stations.find(({ name }) => name === 'M2')!.requirements.map(({ max }) => max)).toEqual([
    expect.closeTo(2.38125),
    expect.closeTo(2.38125),
  ]);
});

test('fractions of a rule, exact ones as they are, and uncertainties in decimals', () => {
  const { read, given, measured, written } = lengthsIn('in');
  expect([0, 0.3, 2.4, 25.4, 28.575, 150].map(read)).toEqual([
    '0 in',
    '0 in',
    '3/32 in',
    '1 in',
    '1 1/8 in',
    '5 29/32 in',
  ]);
  expect([2.38125, 1.190625, 0.5, 254, 298.45].map(given)).toEqual([
    '3/32 in',
    '3/64 in',
    '0.02 in',
    '10 in',
    '11 3/4 in',
  ]);
  expect(measured({ value: 1.6, u: 0.31 })).toBe('1/16 ± 0.012 in');
  expect([1.5875, 27.78125, 0.5].map(written)).toEqual(['1/16 in', '35/32 in', '0.5 mm']);
});
