/** The example that shows every mistake: all codes of the format are in it, under a comment that says what is wrong. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { formatFindings } from '../../shared/format-findings.ts';
import { read } from './sample.ts';

const text = readFileSync(new URL('../../examples/mistakes.alignbook.yaml', import.meta.url), 'utf8');
/** No file shows what makes a file unreadable; many editors replace a lone CR when they save the file. */
const NOT_SHOWN: ReadonlySet<string> = new Set(['file.unreadable', 'cells.loneReturn']);

test('every code of cells and of the format', () => {
  const { codes } = read(text);
  const counts = new Map<string, number>();
  for (const code of codes) counts.set(code, (counts.get(code) ?? 0) + 1);
  expect(Object.keys(formatFindings).filter((code) => !NOT_SHOWN.has(code) && !counts.has(code))).toEqual([]);
});

test('every cell with a mistake explains it in a comment', () => {
  const { workbook, findings } = read(text);
  const silent = findings.filter(({ cell }) => cell >= 0 && !/^\s*# ./m.test(workbook.split.cells[cell]!.text));
  expect(silent.map(({ code }) => code).filter((code) => code !== 'cells.empty' && code !== 'cells.afterEnd')).toEqual(
    [],
  );
});
