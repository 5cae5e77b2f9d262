/** Whatever is answered, the workbook that comes of it has nothing wrong in it and asks for its first mark. */
import { describe, expect, test } from 'vitest';
import { QUESTIONS, readLengths, readName, workbookText, type Answers } from '../../src/create/index.ts';
import { evaluate } from '../../src/evaluation/index.ts';
import { bookOf } from '../support/workbook.ts';
import { reader } from '../support/log.ts';

/** What a person types or chooses, by the name of the question. */
type Typed = Readonly<Record<string, string>>;

const USUAL: Typed = {
  name: 'heron',
  tube: 'rear-left',
  units: 'mm',
  travel: '900 x 600',
  screws: '3',
  'empty-corner': 'upper right',
  locks: 'nut',
  nozzle: 'none',
  plumb: 'none',
};

function answersOf(typed: Typed): Answers {
  return QUESTIONS.reduce<Partial<Answers>>((answers, question) => {
    if (question.isAsked?.(answers) === false) return answers;
    const read = question.read(typed[question.name]!, answers);
    if (!read) throw new Error(`${question.name} does not take ${typed[question.name]}`);
    return { ...answers, ...read };
  }, {}) as Answers;
}

const textOf = (typed: Typed) => workbookText(answersOf({ ...USUAL, ...typed }), '2026-03-14');

function read(text: string) {
  const { entries, findings } = reader.read(text, { file: 'heron.alignbook.yaml', files: new Map() });
  return { entries, findings, evaluation: evaluate(entries) };
}

const words = (name: string) => QUESTIONS.find((one) => one.name === name)!.choices!.map(({ word }) => word);

/** Each choice with the usual answers, in both units. */
const cases: [string, Typed][] = [
  ...words('tube').flatMap((tube) => words('screws').map((screws): Typed => ({ tube, screws }))),
  ...words('empty-corner').map((corner): Typed => ({ 'empty-corner': corner })),
  ...words('locks').map((locks): Typed => ({ locks })),
  ...['none', 'unknown', '4 x 45', '5/32 1 3/4'].map((nozzle): Typed => ({ nozzle })),
  ...['none', '12', '6.5 mrad'].map((plumb): Typed => ({ plumb })),
]
  .flatMap((typed): Typed[] => [typed, { units: 'in', travel: '36 x 24', ...typed }])
  .map((typed) => [Object.values(typed).join(', '), typed]);

test.each(cases)('%s', (_, typed) => {
  const { findings, evaluation } = read(textOf(typed));
  expect([...findings, ...evaluation.findings].map(({ code }) => code)).toEqual([]);
  expect(evaluation.verdict).toBe('continue');
  expect(evaluation.steps.at(-1)).toMatchObject({ kind: 'shoot', station: 'M1' });
});

test('a machine that people call otherwise keeps that as its title', () => {
  const { findings, entries } = read(textOf({ name: ' Workshop-2  "Žába" ' }));
  expect(findings).toEqual([]);
  expect(entries[0]!.entry).toMatchObject({ machine: { name: 'Workshop_2_Zaba', title: 'Workshop-2 "Žába"' } });
});

test.each([
  'a\n---\nrelease: in service',
  'a: [b, {c',
  'a # b',
  'on',
  'null',
  'a"b\'c\\d',
  'a\u0000\u2028\u202eb\ud800',
  'alignbook: allow mark.outside: why',
  '%YAML 9',
  'é'.repeat(40),
  'constructor',
])('no name breaks the workbook: %j', (name) => {
  const text = textOf({ name });
  const { findings, entries } = read(text);
  expect(findings).toEqual([]);
  expect(entries.map(({ entry }) => entry.kind)).toEqual(['machine', 'limits', 'session', 'checks']);
});

test.each([
  ['name', 'x'.repeat(81)],
  ['name', '---'],
  ['tube', 'roof'],
  ['units', 'cm'],
  ['travel', '99999999999999999999 x 1'],
  ['travel', '1e400 x 1'],
  ['screws', '4'],
  ['locks', ''],
  ['nozzle', '4'],
  ['nozzle', 'yes'],
  ['plumb', '0'],
  ['plumb', '101'],
  ['plumb', '12 deg'],
  ['plumb', '-3'],
])('%s does not take %j', (name, text) => {
  const question = QUESTIONS.find((one) => one.name === name)!;
  expect(question.read(text, {})).toBeUndefined();
  expect(question.fault({})[0]).toMatch(/\.$/);
});

test('what is asked stands in the workbook, and no sign is claimed', () => {
  const text = textOf({ 'empty-corner': 'lower-left', locks: 'none', nozzle: '4 x 45', plumb: '12' });
  expect(text).toContain('    screws: {upper_left: {}, upper_right: {}, lower_right: {}}\n    locks: none\n');
  expect(text).toContain('  nozzle: {leg: 45 mm, aperture: 4 mm}\n');
  expect(text).toContain('  lens: {centre: 1.5 mm, plumb: 12 mrad}\n');
  expect(text).not.toMatch(/^ *(in|thread|pitch):/m);
});

test('what is not known is left to be filled in', () => {
  const text = textOf({ 'empty-corner': 'unknown', locks: 'unknown', nozzle: 'unknown' });
  expect(text).toContain('screws: {A: {}, B: {}, C: {}}');
  expect(text).toContain('  # nozzle: {leg: , aperture: }\n');
  expect(text).not.toMatch(/^ *(locks|nozzle):/m);
});

describe('the drawing says where near and far are', () => {
  test.each(words('tube').map((tube) => [tube]))('%s', (tube) => {
    const text = textOf({ tube });
    const drawn = text.split('machine: ')[0]!.split('\n').slice(0, -1);
    expect(drawn.filter((line) => / $/.test(line) || line.length > 80)).toEqual([]);
    const row = (words: string) => drawn.findIndex((line) => line.includes(words));
    const across = drawn.find((line) => line.includes(' left '))!;
    expect(across).toMatch(/left.*right/);
    expect(row('rear')).toBeLessThan(drawn.findLastIndex((line) => line.includes('front')));
    const { evaluation } = read(text);
    const { carriages } = bookOf(text).log.report(evaluation.stations.at(-1)!.name, 4)!;
    for (const { rides, runs } of carriages) {
      // The head's travel is drawn along a row, the gantry's along a column.
      const isForward =
        rides === 'head'
          ? across.indexOf('far') > across.indexOf('near')
          : row('far: the gantry') > row('near: the gantry');
      expect([rides, isForward]).toEqual([rides, runs === 'right' || runs === 'front']);
      if (rides === 'gantry') expect(drawn[row('far: the gantry')]).toContain(`far: the gantry at the ${runs}`);
    }
  });
});

describe('name', () => {
  test.each([
    ['heron', { name: 'heron' }],
    ['bay_3', { name: 'bay_3' }],
    ['my heron', { name: 'my_heron', title: 'my heron' }],
    ['heron-', { name: 'heron', title: 'heron-' }],
    ['2 heron', undefined],
    ['', undefined],
    ['激光', undefined],
  ])('%s', (text, name) => expect(readName(text)).toEqual(name));
});

describe('travel', () => {
  test.each([
    ['900 x 600', [900, 600]],
    ['36.5×24 in', [36.5, 24]],
    ['900mm*600mm', [900, 600]],
    ['900', undefined],
    ['0 x 600', undefined],
    ['900 by 600', [900, 600]],
    ['1300 900', [1300, 900]],
    ['1300,900', [1300, 900]],
    ['51 1/8 x 35', [51.125, 35]],
    ['51 1/8 35 1/2 in', [51.125, 35.5]],
    ['3/4 x 1/2', [0.75, 0.5]],
    ['1/0 x 5', undefined],
    ['900 x 600 x 3', undefined],
    ['900600', undefined],
    ['-900 x 600', undefined],
  ])('%s', (text, travel) => expect(readLengths(text, text.includes('in') ? 'in' : 'mm')).toEqual(travel));
});

test('a length in another unit than the workbook’s is refused, never converted unseen', () => {
  expect(readLengths('36 in x 24 in', 'mm')).toBeUndefined();
  expect(readLengths('900 mm x 600', 'in')).toBeUndefined();
  expect(readLengths('900 mm x 600 mm', undefined)).toBeUndefined();
  expect(readLengths('36 in x 24', 'in')).toEqual([36, 24]);
});
