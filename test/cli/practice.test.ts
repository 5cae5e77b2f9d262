/** Practice on the command line, as somebody without an editor uses it. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { nextAnswer } from './answers.ts';
import { builtInto } from './built.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());
const out = (name: string) => join(place.path, name);
const made = (level: number, seed = 12) => typed('practice', '--seed', String(seed), '--level', String(level)).out;
const HEAD = /^PRACTICE: simulated machine, level 2, near and far, seed 12\. Nothing here is real\.\n/;
const BLANKS = '---\nmarks: M2\nx-expected: {near: centre, far: 2 right 1 up}\nshots: {near: , far: }\n';
const READ = BLANKS.replace('near: , far: }\n', 'near: 0 right 1.5 up, far: 1.5 right 5 up}\n');

test('a new workbook is written once and is never overwritten', () => {
  const file = out('new.alignbook.yaml');
  expect(typed('practice', '--seed', '7', '--level', '3', '--out', file)).toEqual({ exit: 0, out: '', error: '' });
  const text = readFileSync(file, 'utf8');
  expect(text).toContain('practice: {seed: 7, level: 3}');
  expect(typed('practice', '--seed', '8', '--out', file)).toMatchObject({ exit: 2 });
  expect(readFileSync(file, 'utf8')).toBe(text);
  expect(typed('check', file)).toMatchObject({ exit: 0 });
});

test('the tapes of the blanks are printed as letters, and nothing else of the machine', () => {
  const file = place.file('fire.alignbook.yaml', made(2) + BLANKS);
  const { exit, out: printed } = typed('practice', '--fire', file);
  expect(exit).toBe(0);
  expect(printed).toMatch(HEAD);
  expect(printed.match(/^TAPE M2, gantry (?:near|far)/gm)).toHaveLength(2);
  expect(Math.max(...printed.split('\n').map((line) => line.length))).toBeLessThanOrEqual(110);
  // The middle of the letters # is the mark, to the step of reading.
  const [near] = printed.split('TAPE M2, gantry far');
  const rows = near!.split('\n').filter((line) => line.includes('#') && !line.includes('middle'));
  expect(rows.length).toBeGreaterThan(2);
  expect(typed('practice', '--fire', file).out).toBe(printed);
});

test('and drawn', () => {
  const file = place.file('draw.alignbook.yaml', made(2) + BLANKS);
  expect(typed('practice', '--fire', file, '--out', out('t.svg'))).toMatchObject({ exit: 0 });
  const svg = readFileSync(out('t.svg'), 'utf8');
  expect(svg.match(/Burnt tape on M2/g)!.length).toBeGreaterThanOrEqual(2);
  expect(svg).toContain('PRACTICE, M2, gantry far from M1 (front)');
  expect(svg).not.toMatch(/NaN|limit|undefined/);
});

test('after the marks are written they are compared', () => {
  const file = place.file('compare.alignbook.yaml', made(2) + READ);
  const { exit, out: printed } = typed('practice', '--compare', file);
  expect(exit).toBe(0);
  expect(printed).toMatch(
    /M2, gantry far from M1 \(front\)\n {2}expected {2}2\.0 right .*\n {2}read {6}1\.5 right .*5\.0 up\n {2}came {6}/,
  );
  expect(printed).toMatch(/reading {3}\d\.\d mm off\n {2}expecting \d\.\d mm off/);
});

test('the closing sheet has both ways', () => {
  const file = place.file('closing.alignbook.yaml', made(2) + READ);
  const { exit, out: printed } = typed('practice', '--closing', file);
  expect(exit).toBe(0);
  expect(printed).toMatch(HEAD);
  expect(printed).toMatch(/adjustments +0 +\d+\n {2}tapes +2 +\d+\n {2}advice asked +0 +–/);
  expect(printed).toMatch(/WORST LIMIT BY TAPES SHOT[^]*yours[^]*shortest/);
});

describe('PRACTICE is never confused with a real machine', () => {
  const text = `${made(2).replace('\nopen:', '\ndone:')}${READ}`;
  const file = place.file('mixed.alignbook.yaml', text);

  test.each(['next', 'care', 'sessions', 'light'])('%s begins with it', (command) => {
    expect(typed(command, file).out).toMatch(HEAD);
  });

  test('next keeps its advice until it is asked for; --json has it, in its usual form', () => {
    expect(typed('next', file).out).toContain(
      'The advice is closed: choose the step yourself. Advice was not asked for.',
    );
    expect(typed('next', file).out).not.toMatch(/\| (?:adjust|marks): /);
    const asked = place.file('asked.alignbook.yaml', `${text}---\nnote: Asked for advice.\n`);
    expect(typed('next', asked).out).toMatch(/\| adjust: M1|\| marks: M1/);
    const answer = nextAnswer(typed('next', '--json', file).out);
    expect(answer.steps.length).toBeGreaterThan(0);
  });

  test('its record says so on every page, and is titled so', () => {
    const html = typed('report', file, '--out', '-').out;
    expect(html).toContain('<p class="watermark" aria-hidden="true">PRACTICE</p>');
    expect(html).toContain('<title>PRACTICE: not a record</title>');
    expect(typed('report', file, '--markdown').out).toMatch(/^# PRACTICE: not a record\n/);
  });

  test('it cannot be released', () => {
    const released = place.file('released.alignbook.yaml', `${text}---\nrelease: in service\nby: kt\n`);
    expect(typed('check', released)).toMatchObject({ exit: 1, out: expect.stringContaining('error release.practice') });
  });

  test('a machine that borrows from it is simulated, too', () => {
    place.file('.git/HEAD', '');
    place.file('lib.alignbook.yaml', made(2));
    const borrower = place.file('borrower.alignbook.yaml', 'machine: practice2\nfrom: lib.alignbook.yaml\n');
    expect(typed('next', borrower).out).toMatch(HEAD);
  });
});

test.each([
  [['--fire'], 'needs one workbook'],
  [['--fire', '--compare', 'x'], 'exclude each other'],
  [['--level', '6'], 'is not a level: 1 to 5'],
  [['--level', '1.5'], 'is not a level'],
  [['--seed', '-1'], 'argument'],
  [['--seed', '1e9'], 'is not a whole number'],
  [['--seed', '7', '--fire', 'x'], 'takes no `--seed`'],
  [['some.alignbook.yaml'], 'makes a new workbook'],
  [['--out', 'p.txt'], 'is no name of a workbook'],
  [['--fire', 'x', '--out', 'p.yaml'], 'is not a .svg or .png file'],
  [['--round', '1'], 'takes no `--round`'],
])('wrong: %j', (words, reason) => {
  const { exit, error } = typed('practice', ...words);
  expect(exit).toBe(2);
  expect(error).toContain(reason);
});

test.each([
  ['--fire', 'no blank to fire for'],
  ['--compare', 'no mark to compare yet'],
])('nothing to do for %s is said', (view, reason) => {
  const file = place.file('empty.alignbook.yaml', made(2));
  expect(typed('practice', view, file)).toMatchObject({ exit: 2, error: expect.stringContaining(reason) });
  const real = place.file('real.alignbook.yaml', made(2).replace(/^practice: .*\n/m, ''));
  expect(typed('practice', view, real).error).toContain('is no practice workbook');
  expect(typed('practice', view, out('missing.alignbook.yaml')).exit).toBe(2);
});

describe('the same bytes on every Node', () => {
  const program = out('alignbook.cjs');
  beforeAll(() => builtInto(place.path), 60_000);

  const system = (process.env['PATH'] ?? '')
    .split(delimiter)
    .filter((path) => !path.includes('node_modules'))
    .map((path) => join(path, 'node'))
    .find(existsSync);
  const ran = (node: string, words: readonly string[]) =>
    spawnSync(node, [program, ...words], { encoding: 'utf8', maxBuffer: 1e8 }).stdout;

  test.skipIf(system === undefined)(
    'workbooks, tapes as letters and drawn tapes',
    () => {
      const versions = [process.execPath, system!].map(
        (node) => ran(node, ['--version']) && spawnSync(node, ['--version']).stdout.toString().trim(),
      );
      let compared = 0;
      for (const level of [1, 3, 5]) {
        const words = ['practice', '--seed', String(40 + level), '--level', String(level)];
        const [one, other] = [process.execPath, system!].map((node) => ran(node, words));
        expect(other).toBe(one);
        const station = level === 1 ? 'target\nshots: ' : 'M2\nshots: {near: , far: }';
        const file = place.file(
          `node-${level}.alignbook.yaml`,
          `${one}---\nadjust: M1\nlock: loose\nturn: {A: in 1/8, B: out 1/16}\n---\nmarks: ${station}\n`.replace(
            level < 3 ? 'lock: loose\n' : '\u0000',
            '',
          ),
        );
        for (const more of [[], ['--out', '-']]) {
          const [mine, its] = [process.execPath, system!].map((node) =>
            ran(node, ['practice', '--fire', file, ...more]),
          );
          expect(mine!.length).toBeGreaterThan(500);
          expect(its).toBe(mine);
          compared += mine!.length;
        }
      }
      console.log(`practice: ${compared} characters are the same on ${versions.join(' and ')}`);
    },
    300_000,
  );
});

test('on a small screen the hidden step is no verdict', () => {
  const file = place.file('brief.alignbook.yaml', typed('practice', '--seed', '12', '--level', '2').out);
  const { out } = typed('next', '--brief', file);
  expect(out.match(/PRACTICE/g)).toHaveLength(1);
  const shot = `${typed('practice', '--seed', '12', '--level', '2').out.replace('open:', 'done:')}---\nmarks: M2\nshots: {near: 1 left 5 up, far: 1 right 6 up}\n`;
  const after = typed('next', '--brief', place.file('shot.alignbook.yaml', shot)).out;
  expect(after).toMatch(/^YOUR CHOICE +the advice is closed$/m);
  expect(after).not.toMatch(/^WITHIN/m);
});
