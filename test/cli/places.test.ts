/** Where findings stand: 0-based UTF-16 for programs, 1-based for people, whatever stands before them in the file. */
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { harmless } from '../../src/model/index.ts';
import { checkAnswer } from './answers.ts';
import { LOGS } from './logs.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

function firstMatch(workbook: string) {
  const file = place.file('p.yaml', workbook);
  const { findings } = checkAnswer(typed('check', '--json', file).out);
  const lines = findings.map(
    ({ code, severity, message, range: { start } }) =>
      `${file}:${start.line + 1}:${start.character + 1} ${severity} ${code} ${harmless(message)}\n`,
  );
  expect(typed('check', file).out).toBe(lines.join(''));
  return findings;
}

/** `line:character-line:character code`, and the characters there. */
function places(text: string): string[] {
  const lines = text.replace(/^\ufeff/, '').split(/\r?\n/);
  return firstMatch(text).map(({ code, range: { start, end } }) => {
    const characters = start.line === end.line ? lines[start.line]!.slice(start.character, end.character) : '…';
    return `${start.line}:${start.character}-${end.line}:${end.character} ${code} ${characters}`;
  });
}

test.each([
  ['the first line', 'nots: x\n', ['0:0-0:4 cell.kind nots']],
  ['a later line', 'note: x\n---\n\nnots: y\n', ['3:0-3:4 cell.kind nots']],
  ['CRLF', 'note: x\r\n---\r\nnots: y\r\n', ['2:0-2:4 cell.kind nots']],
  ['a byte order mark is not part of line 1', '\ufeffnots: x\n', ['0:0-0:4 cell.kind nots']],
  ['a byte order mark, later lines', '\ufeffnote: x\n---\nnots: x\n', ['2:0-2:4 cell.kind nots']],
  ['two units for a character beyond the basic plane', '{by: "🔥🔥", nots: x}\n', ['0:13-0:17 cell.kind nots']],
  ['such characters before it on its line', '{note: "🔥🔥", date: never}\n', ['0:21-0:26 date.unreadable never']],
  ['the last line without its end', 'note: x\ndate: never', ['1:6-1:11 date.unreadable never']],
  [
    'a line separator ends no line',
    'note: "a\u2028b\u0085c", \n---\nnote: x\ndate: never\n',
    ['0:13-0:14 yaml.syntax ,', '3:6-3:11 date.unreadable never'],
  ],
  ['a lone carriage return ends no line', 'note: a\rdate: b\n', ['0:7-0:8 cells.loneReturn \r']],
])('%s', (_, text, expected) => {
  for (const one of expected) expect(places(text)).toContain(one);
});

function checkInside(text: string): void {
  const lines = text.replace(/^\ufeff/, '').split(/\r?\n/);
  for (const {
    range: { start, end },
  } of firstMatch(text)) {
    for (const { line, character } of [start, end]) {
      expect(line).toBeLessThan(lines.length);
      expect(character).toBeLessThanOrEqual(lines[line]!.length);
    }
    expect(start.line < end.line || (start.line === end.line && start.character <= end.character)).toBe(true);
  }
}

test.each(['\n', '\r\n'])('every finding is inside the file, line ends %j', (end) => {
  const text = LOGS['mistakes among good cells']!.replaceAll('\n', end);
  expect(firstMatch(text).length).toBeGreaterThan(4);
  checkInside(text);
});

test('for any text too', () => {
  const piece = fc.constantFrom(
    '---',
    '\n',
    '\r\n',
    '\r',
    '🔥',
    '\ufeff',
    'note: ',
    'marks: M2',
    'shots: {near: ',
    '1 right',
    '}',
    '"',
    '# x',
    '  ',
    '...',
    '<<<<<<< a\n',
    '=======\n',
    '>>>>>>> b\n',
    '%YAML 1.1\n',
    'é',
    '\u2028',
  );
  fc.assert(
    fc.property(
      fc.array(piece, { maxLength: 25 }).map((pieces) => pieces.join('')),
      checkInside,
    ),
    { numRuns: 120 },
  );
});
