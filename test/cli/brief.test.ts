/** `next --brief`: whatever the log, at most 24 lines of 48 columns in ASCII, with the step that every view shows. */
import { readdirSync, readFileSync } from 'node:fs';
import { stripVTControlCharacters, styleText } from 'node:util';
import { afterAll, describe, expect, test } from 'vitest';
import { briefText } from '../../src/cli/brief-text.ts';
import { paintFor, type Paint } from '../../src/cli/paint.ts';
import { createBook, adviceNow, type Book } from '../../src/language/index.ts';
import { threads } from '../../src/machine/index.ts';
import { turnsInWords, type Step } from '../../src/model/index.ts';
import { createReader, expressions } from '../../src/workbook/index.ts';
import { sampled } from '../support/amount.ts';
import { nextAnswer } from './answers.ts';
import { LIMITS, LOGS, MACHINE } from './logs.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

const plain: Paint = (_, text) => text;
const coloured: Paint = (style, text) => styleText(style, text, { validateStream: false });
const examples = new URL('../../examples/', import.meta.url);
const tables = { threads, expressions };
const reader = createReader(tables);

function bookOf(text: string): Book {
  const book = createBook(
    tables,
    'x.alignbook.yaml',
    new Map([['5-missed.alignbook.yaml', { text: '' }]]),
    text,
    reader,
  );
  book.fold();
  return book;
}

/** Every way in which a file ends while it is written: with each of its cells as the last one. */
function prefixes(text: string): string[] {
  const cells = text.split(/^---\n/m);
  return cells.map((_, k) => cells.slice(0, k + 1).join('---\n'));
}

/** What is wrong with a brief text. */
function faults(book: Book): string[] {
  const text = briefText('x.alignbook.yaml', book, plain);
  const lines = text.split('\n').slice(0, -1);
  const advice = adviceNow(book);
  const flat = text.replaceAll(/\s+/g, ' ');
  return [
    ...(lines.length > 24 ? [`${lines.length} lines`] : []),
    ...lines.filter((line) => line.length > 48).map((line) => `${line.length} columns: ${line}`),
    ...(/[^\x20-\x7e\n]/.test(text) ? ['not ASCII'] : []),
    ...(/undefined|NaN|\[object/.test(text) ? ['no words'] : []),
    ...(/ $/m.test(text) ? ['a space at the end of a line'] : []),
    ...(stripVTControlCharacters(briefText('x.alignbook.yaml', book, coloured)) === text ? [] : ['colour changes it']),
    ...(/AND MORE/.test(text) ? [] : advice.steps.flatMap((step) => missing(step, flat))),
    ...(book.evaluation().verdict === 'blocked' && !text.includes('\nDO NOT FIRE')
      ? ['blocked, and it does not say so']
      : []),
  ];
}

/** The words of a step that the text lacks. */
function missing(step: Step, flat: string): string[] {
  const wanted = wordsOf(step).filter((words) => !flat.includes(words.slice(0, 40)));
  return wanted.map((words) => `no \`${words}\``);
}

function wordsOf(step: Step): string[] {
  switch (step.kind) {
    case 'turn':
      return [
        `${step.isTrial ? 'TRIAL TURN' : 'TURN'} ${step.part.toUpperCase()}`,
        ` ${step.screw} `,
        `${step.turns < 0 ? 'OUT' : 'IN'} ${turnsInWords(step.turns)}`,
      ];
    case 'shoot':
      return [`TAPE ${step.station.toUpperCase()}`, ...step.shots.slice(1).map((_, k) => ` ${k + 2} `)];
    case 'shift':
      return [`MOVE ${step.part.toUpperCase()}`];
    case 'lock':
      return [step.to === 'tight' ? `TIGHTEN ${step.part.toUpperCase()}` : 'lock nuts'];
    case 'check':
      return step.items.map((item) => item.replaceAll('µ', 'u'));
    case 'release':
      return ['SIGN OFF'];
    case 'care':
    case 'repair':
      return [];
  }
}

const rounds = readdirSync(examples)
  .filter((name) => name.endsWith('.yaml'))
  .flatMap((name) => prefixes(readFileSync(new URL(name, examples), 'utf8')).map((text, k) => ({ name, k, text })));

test('after every cell of every example it fits, in ASCII, with every step, and colour changes nothing', () => {
  const cases = sampled(rounds);
  const wrong = cases.flatMap(({ name, k, text }) => {
    const all = faults(bookOf(text));
    return all.length === 0 ? [] : [`${name}, ${k + 1} cells: ${all.join('; ')}`];
  });
  console.log(`${cases.length} of ${rounds.length} ends of logs shown in 24 lines`);
  expect(wrong).toEqual([]);
});

test.each(Object.keys(LOGS))('%s: it fits', (name) => {
  expect(faults(bookOf(LOGS[name]!))).toEqual([]);
});

test('the turn is the one of `next --json`, with its corner and its hand', () => {
  const file = place.file('turn.alignbook.yaml', LOGS['a screw in']!);
  const { steps } = nextAnswer(typed('next', '--json', file).out);
  const { out } = typed('next', '--brief', file);
  const turns = steps.filter((step) => step.kind === 'turn');
  expect(turns.length).toBeGreaterThan(0);
  for (const { part, screw, turns: amount } of turns) {
    expect(out).toContain(`TURN ${part}`);
    const [, , sense, printed, hand] = new RegExp(`^ {2}${screw} +(.*?) +(IN|OUT) +(\\S+) +(\\w+)$`, 'm').exec(out)!;
    expect([sense, printed]).toEqual([amount > 0 ? 'IN' : 'OUT', turnsInWords(amount)]);
    expect(hand).toBe(amount > 0 ? 'clockwise' : 'anticlockwise');
  }
});

describe('cautions', () => {
  const M1 = 'marks: M1\nshots: centre\n';
  const brief = (...cells: string[]) =>
    briefText('x', bookOf([MACHINE, LIMITS, ...cells].join('---\n')), plain).replaceAll('\n', ' ');
  const EACH = [
    'Invisible beam',
    'skin',
    'Covers open',
    'Eyewear (10.6 um)',
    'Lowest power',
    'Hands',
    'Extinguisher',
    'Extraction',
    'safety officer',
  ];

  test('in full before the first shot of a visit, in one line after it', () => {
    for (const words of EACH) expect(brief('session: a\n')).toContain(words);
    expect(brief('session: a\n', M1)).toContain('Eyewear, covers, extraction, cooling, watch.');
    expect(brief('session: a\n', M1)).not.toContain('Invisible');
    for (const words of EACH) expect(brief('session: a\n', M1, 'session: b\n')).toContain(words);
  });

  test('none where nothing fires', () => {
    const file = place.file('done.alignbook.yaml', LOGS['within and signed off']!);
    expect(typed('next', '--brief', file).out).not.toMatch(/eyewear/i);
  });
});

test('an unfit part blocks: nothing fires, and its station has the bar', () => {
  const book = bookOf([MACHINE, LIMITS, 'marks: M1\nshots: centre\n', 'care: M2\nfound: cracked\n'].join('---\n'));
  const text = briefText('x', book, plain);
  expect(text).toMatch(/^DO NOT FIRE +replace M2$/m);
  expect(text).toContain('1  Replace M2: it was found cracked.');
  expect(text).toContain('2  log it: alignbook add FILE');
  expect(text).toMatch(/M2 \(-\)/);
  expect(text).toMatch(/\bblocked\b/);
});

test('a practice machine says so first', () => {
  const text = briefText(
    'x',
    bookOf(LOGS['a screw in']!.replace('machine: swift\n', 'machine: swift\npractice: {seed: 7, level: 2}\n')),
    plain,
  );
  expect(text.split('\n')[0]).toBe("PRACTICE  level 2, seed 7: can't be released");
});

test('blanks of the last cell are to be filled in, and no step is repeated', () => {
  const text = briefText(
    'x',
    bookOf(`${LOGS['only the first mirror shot']!}---\nmarks: M2\nshots:\n  near: \n  far: \n`),
    plain,
  );
  expect(text).toMatch(/^READ THE TAPES: M2\n {2}1 {2}near \(rear\)\n {2}2 {2}far \(front\)$/m);
  expect(text).not.toMatch(/^(THEN )?TAPE|EXPECT/m);
});

test('more stations than fit: the one at hand and the next three', () => {
  const five = LOGS['a screw in']!.replace(
    / {2}lens: .*\n/,
    (lens) => `${lens}  nozzle: {leg: 30 mm, aperture: 4 mm}\n`,
  );
  expect(briefText('x', bookOf(five), plain)).toMatch(/M2 \( \)o +M3 \( \) +lens \( \) +nozzle o\n/);
});

test('several files, a folder, standard input’s name, and a narrow terminal', () => {
  const files = ['a screw in', 'the tube'].map((name, k) => place.file(`several/${k}.alignbook.yaml`, LOGS[name]!));
  const { out, exit } = typed('next', '--brief', `${place.path}/several`);
  expect(exit).toBe(0);
  expect(out).toBe(typed('next', '--brief', ...files).out);
  expect(out.match(/^-{48}$/gm)).toHaveLength(4);
  expect(typed('next', '--brief', '--json', files[0]!)).toMatchObject({ exit: 2 });
  const narrow = briefText('x', bookOf(LOGS['a screw in']!), plain, 34).split('\n');
  expect(narrow.filter((line) => line.length > 34)).toEqual([]);
  expect(narrow).toContain('    clockwise');
});

test('NO_COLOR and a pipe are honoured', () => {
  for (const [isTTY, environment] of [
    [true, { NO_COLOR: '1' }],
    [false, {}],
  ] as const)
    expect(briefText('x', bookOf(LOGS['a screw in']!), paintFor({ isTTY }, environment))).toBe(
      briefText('x', bookOf(LOGS['a screw in']!), plain),
    );
});
