/** What is printed, and with which exit code. */
import { dirname } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { checkAnswer, nextAnswer } from './answers.ts';
import { LOGS } from './logs.ts';
import { columns } from '../../src/cli/wrap.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

const good = place.file('good.alignbook.yaml', LOGS['all within']!);
const bad = place.file('bad.alignbook.yaml', LOGS['mistakes among good cells']!);
const hints = place.file('hints.alignbook.yaml', `${LOGS['all within']!}---\n`);
const empty = place.file('empty.alignbook.yaml', '');
const binary = place.file('binary.alignbook.yaml', Uint8Array.of(0x6e, 0x6f, 0xff, 0xfe, 0x0a));
const nothing = dirname(place.file('none/notes.txt', ''));
const missing = `${place.path}/missing.alignbook.yaml`;
const strange = place.file('über 9 µm/ein Heft – 試験 🔥.alignbook.yaml', LOGS['all within']!);

test.each([
  ['no command', [], 2],
  ['an unknown command', ['turn', good], 2],
  ['no file', ['check'], 2],
  ['an unknown option', ['check', '--xml', good], 2],
  ['an option that takes no value', ['check', '--json=yes', good], 2],
  ['a file for the schema', ['schema', good], 2],
  ['the schema', ['schema'], 0],
  ['help', ['--help'], 0],
  ['help for a command', ['check', '-h'], 0],
  ['the version', ['--version'], 0],
  ['check: good', ['check', good], 0],
  ['check: hints only', ['check', hints], 0],
  ['check: errors', ['check', bad], 1],
  ['check: one of two has errors', ['check', bad, good], 1],
  ['check: empty', ['check', empty], 0],
  ['check: missing', ['check', missing], 2],
  ['check: missing before good', ['check', missing, good], 2],
  ['check: errors and missing', ['check', bad, missing], 2],
  ['check: a folder', ['check', place.path], 2],
  ['check: a folder of good ones', ['check', `${place.path}/über 9 µm`], 0],
  ['check: a folder without a workbook', ['check', nothing], 2],
  ['check: not UTF-8', ['check', binary], 2],
  ['check: a strange name', ['check', strange], 0],
  ['next: good', ['next', good], 0],
  ['next: errors', ['next', bad], 0],
  ['next: empty', ['next', empty], 0],
  ['next: missing', ['next', good, missing, good], 2],
  ['next: a folder without a workbook', ['next', nothing], 2],
  ['next: not UTF-8', ['next', binary], 2],
  ['light: good', ['light', good], 0],
  ['light: empty', ['light', empty], 0],
  ['light: missing', ['light', missing, good], 2],
] as const)('exit of %s', (_, words, exit) => {
  expect(typed(...words).exit).toBe(exit);
  if (exit === 2 && words[1] === undefined)
    expect(typed(...words)).toMatchObject({
      out: '',
      error: expect.stringMatching(/^alignbook: .+\n\nalignbook COMMAND FILE/),
    });
});

test.each(['check', 'next'])('%s --json: exactly one line for each file, in order, whatever it is', (command) => {
  const files = [good, missing, bad, empty, binary, strange, good];
  const { out, error } = typed(command, '--json', ...files);
  const lines = out.split('\n');
  expect(lines.pop()).toBe('');
  expect(lines.map((line) => JSON.parse(line).file)).toEqual(files);
  for (const line of lines) (command === 'check' ? checkAnswer : nextAnswer)(`${line}\n`);
  expect(error).toBe('');
});

test.each([
  ['missing', missing, 'there is no such file'],
  ['not UTF-8', binary, 'it is not UTF-8 text'],
])('an unreadable file gives the reason: %s', (_, file, reason) => {
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  const findings = [
    { code: 'file.unreadable', severity: 'error', message: `This file cannot be read: ${reason}.`, range },
  ];
  expect(checkAnswer(typed('check', '--json', file).out).findings).toEqual(findings);
  expect(nextAnswer(typed('next', '--json', file).out)).toEqual({
    format: 1,
    file,
    verdict: 'blocked',
    stations: [],
    steps: [],
    expected: [],
    learnt: [],
    findings,
  });
  expect(typed('check', file).out).toBe(`${file}:1:1 error file.unreadable This file cannot be read: ${reason}.\n`);
});

test('next: the other files are shown though one cannot be read', () => {
  const { out, error } = typed('next', missing, good);
  expect(error).toContain('file.unreadable');
  expect(out).toContain('WITHIN');
});

test('options may stand anywhere, and `--` ends them', () => {
  expect(typed('--json', 'check', good).out).toBe(typed('check', good, '--json').out);
  expect(typed('check', '--json', '--', good).out).toBe(typed('check', '--json', good).out);
});

test('the schema is JSON', () => {
  expect(JSON.parse(typed('schema').out)).toHaveProperty('$schema');
});

describe('text for people', () => {
  test.each(Object.keys(LOGS))('next is never wider than 80 columns, and has no colour: %s', (name) => {
    const { out } = typed('next', place.file('w.yaml', LOGS[name]!));
    // What is to be copied into the file stays whole.
    const lines = out.split('\n').filter((line) => !/^ {10}\| /.test(line));
    expect(lines.filter((line) => columns(line) > 80)).toEqual([]);
    expect(out).not.toContain('\u001b');
    expect(out).not.toMatch(/NaN|Infinity|undefined|null|\[object/);
  });

  test.each([
    ['an order to the terminal', 'marks: "\\e[31mM2"\nshots: centre\n', '`\\u001b[31mM2` is not a valid name'],
    ['a line end', '"a\\nb": c\n---\nmarks: "M\\n1"\n', '`M 1` is not a valid name'],
    ['letters turned around', 'adjust: "M1\u202e"\nlock: tight\n', '`M1\\u202e` is not a valid name'],
    ['a line separator', 'adjust: M1\nlock: "a\u2028b"\n', '`a b` is not one of loose, tight'],
  ])('a file cannot write to the terminal: %s', (_, cell, expected) => {
    const file = place.file('t.yaml', `${LOGS['all within']!}---\n${cell}`);
    const answers = checkAnswer(typed('check', '--json', file).out).findings;
    const lines = typed('check', file).out.split('\n');
    expect(lines).toHaveLength(answers.length + 1);
    expect(lines.join('\n')).toContain(expected);
    for (const text of [lines.join(''), typed('next', file).out.replaceAll('\n', '')])
      expect(text).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}\u202e]/u);
  });

  test('nor can a file’s name', () => {
    const file = place.file('a\u001b[2J\nb.yaml', 'nots: x\n');
    expect(typed('check', file).out).toMatch(/a\\u001b\[2J\\u000ab\.yaml:1:1 error cell\.kind .*\n$/);
    expect(typed('next', file).out).not.toContain('\u001b');
    expect(checkAnswer(typed('check', '--json', file).out).file).toBe(file);
  });

  test('a long name of a file, in characters of two columns too', () => {
    const file = place.file(
      `${'試験 '.repeat(12)}${'x'.repeat(90)}/${'🔥'.repeat(45)}.yaml`,
      LOGS['mistakes among good cells']!,
    );
    const { out } = typed('next', file);
    expect(out.split('\n').filter((line) => columns(line) > 80)).toEqual([]);
    expect(out.replaceAll(/\s/g, '')).toContain(`${file.replaceAll(/\s/g, '')}`);
  });

  /** States whose words differ from those of the format. */
  const SHOWN: Readonly<Record<string, string>> = {
    unlimited: 'no limits',
    unread: 'not shot',
    outside: 'out of limits',
  };

  /** Line ends, indents and the frame of a cell are for the eye. */
  const flat = (text: string) => text.replaceAll(/[\s|]+/g, ' ');

  test.each([
    ['within', 'all within', /^WITHIN: every station with limits is within; no lock nut is logged as loose\.$/m],
    ['continue', 'a screw in', /^NEXT$/m],
    ['continue', 'the tube', /^NEXT$/m],
    ['continue', 'tapes at two heights', /^NEXT$/m],
    ['blocked', 'no tape is hit', /^BLOCKED$/m],
    ['blocked', 'no limits', /^BLOCKED$/m],
  ])('%s: the text has the content of the JSON (%s)', (verdict, name, expected) => {
    const file = place.file('v.yaml', LOGS[name]!);
    const answer = nextAnswer(typed('next', '--json', file).out);
    const { out } = typed('next', file);
    expect(answer.verdict).toBe(verdict);
    expect(out).toMatch(expected);
    for (const { say, cell } of answer.steps) {
      // What to do and why are one text in JSON and two in print: sentence by sentence.
      for (const part of [...say.split(/(?<=[.:]) /), cell?.trimEnd() ?? '']) expect(flat(out)).toContain(flat(part));
    }
    for (const { name: station, state } of answer.stations)
      expect(out).toMatch(new RegExp(`^${station} +${SHOWN[state] ?? state}\\b`, 'm'));
  });
});
