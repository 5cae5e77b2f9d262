/** Cells → text: what is put in gets a `---` and line ends as it needs them. Copy a line to add a case. */
import { describe, expect, test } from 'vitest';
import { appendCells, lineIndex, replaceCell, splitCells } from '../../src/cells/index.ts';

describe('appending', () => {
  const CASES: readonly (readonly [text: string, added: string[], result: string])[] = [
    ['', ['a: 1'], 'a: 1\n'],
    ['', ['a: 1\n', 'b: 2\n'], 'a: 1\n---\nb: 2\n'],
    ['a: 1', ['b: 2'], 'a: 1\n---\nb: 2\n'],
    ['a: 1\r\n', ['b: 2\nc: 3\n'], 'a: 1\r\n---\r\nb: 2\r\nc: 3\r\n'],
    ['a: 1\n', ['---\nb: 2\n'], 'a: 1\n---\nb: 2\n'],
    ['# head', ['a: 1'], '# head\na: 1\n'],
    ['%YAML 1.2\n', ['a: 1'], '%YAML 1.2\n---\na: 1\n'],
    ['\ufeff', ['a: 1'], '\ufeffa: 1\n'],
    ['a: 1\n...\n', ['b: 2'], 'a: 1\n...\n---\nb: 2\n'],
    ['a: 1\n', [], 'a: 1\n'],
  ];
  test.each(CASES)('%j + %j', (text, added, result) => expect(appendCells(text, added)).toBe(result));
});

describe('replacing', () => {
  const CASES: readonly (readonly [text: string, index: number, cell: string, result: string])[] = [
    ['a: 1\n---\nb: 2\n', 0, 'x: 9\n', 'x: 9\n---\nb: 2\n'],
    ['a: 1\n---\nb: 2\n', 0, 'x: 9', 'x: 9\n---\nb: 2\n'],
    ['a: 1\n---\nb: 2\n', 1, 'x: 9\n', 'a: 1\n---\nx: 9\n'],
    ['a: 1\n---\nb: 2\n', 1, '--- # why\nx: 9', 'a: 1\n--- # why\nx: 9'],
    ['a: 1\r\n---\r\nb: 2\r\n---\r\nc: 3', 1, 'x: 9', 'a: 1\r\n---\r\nx: 9\r\n---\r\nc: 3'],
    ['---\na: 1\n', 0, 'x: 9\n', '---\nx: 9\n'],
    ['a: 1\n...\nb: 2\n', 0, 'x: 9\n', 'x: 9\n...\nb: 2\n'],
    ['a: 1\n...\nb: 2\n', 0, 'x: 9\n...\n', 'x: 9\n...\nb: 2\n'],
    ['a: 1\n...\n# c\n---\nb: 2\n', 0, 'x: 9\n', 'x: 9\n# c\n---\nb: 2\n'],
    ['a: 1\n---\nb: 2\n', 0, '', '---\nb: 2\n'],
  ];
  test.each(CASES)('%j, cell %i, by %j', (text, index, cell, result) => {
    expect(replaceCell(text, splitCells(text), index, cell)).toBe(result);
  });

  test('there is no such cell', () => {
    expect(() => replaceCell('a: 1\n', splitCells('a: 1\n'), 1, 'b')).toThrow(RangeError);
  });
});

describe('positions', () => {
  const CASES: readonly (readonly [text: string, offset: number, line: number, character: number])[] = [
    ['', 0, 0, 0],
    ['ab\ncd', 0, 0, 0],
    ['ab\ncd', 2, 0, 2],
    ['ab\ncd', 3, 1, 0],
    ['ab\ncd', 5, 1, 2],
    ['ab\ncd', 99, 1, 2],
    ['ab\ncd', -1, 0, 0],
    ['ab\r\ncd', 3, 0, 2],
    ['ab\r\ncd', 4, 1, 0],
    ['a\rb\nc', 3, 0, 3],
    ['a\u2028b\nc', 2, 0, 2],
    ['🔧x\n', 2, 0, 2],
    ['\ufeffab\nc', 1, 0, 0],
    ['\ufeffab\nc', 0, 0, 0],
    ['\ufeffab\nc', 2, 0, 1],
    ['a\n', 2, 1, 0],
  ];
  test.each(CASES)('%j at %i', (text, offset, line, character) => {
    expect(lineIndex(text).positionAt(offset)).toEqual({ line, character });
  });
});
