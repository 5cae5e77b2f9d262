/**
 * Whole files with what is found in them: `UPDATE=1` writes the markers anew, for a person to read the difference.
 * Every code that cells or the format can produce has a place here.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { findings as table } from '../../shared/findings.ts';
import { formatFindings } from '../../shared/format-findings.ts';
import { message } from '../../src/model/index.ts';
import { QUANTITY_CODES } from '../../src/workbook/quantities/index.ts';
import { createReader, expressions, visibleFindings } from '../../src/workbook/index.ts';
import { place, readMarkers, writeMarkers } from './markers.ts';
import { threads } from './threads.ts';

const folder = new URL('../cases/', import.meta.url);
const reader = createReader({ threads, expressions });
const cases = readdirSync(folder).filter((name) => name.endsWith('.yaml'));

function found(text: string) {
  const workbook = reader.read(text, { file: 'case.alignbook.yaml', files: new Map() });
  return { workbook, findings: visibleFindings(workbook, []) };
}

describe('every finding is expected, and every expectation met', () => {
  test.each(cases)('%s', (name) => {
    const marked = readFileSync(new URL(name, folder), 'utf8');
    const { text, expected } = readMarkers(marked);
    const { workbook, findings } = found(text);
    const places = findings.map((finding) => place(workbook, finding));
    if (process.env['UPDATE'] !== undefined) writeFileSync(new URL(name, folder), writeMarkers(text, places));
    else expect(places.toSorted()).toEqual([...expected].toSorted());
  });
});

test.each(cases)('in %s every message has all its facts, and every fix stays in its cell', (name) => {
  const { workbook, findings } = found(readMarkers(readFileSync(new URL(name, folder), 'utf8')).text);
  for (const finding of findings) {
    const wording = table[finding.code].message.match(/\{\w+\}/g) ?? [];
    expect(
      wording.filter((fact) => !Object.hasOwn(finding.facts, fact.slice(1, -1))),
      message(finding),
    ).toEqual([]);
    const length = (workbook.split.cells[finding.cell]?.text ?? workbook.split.head).length;
    for (const { start, end } of [finding.span, finding.fix?.span ?? finding.span]) {
      expect(start >= 0 && start <= end && end <= length, message(finding)).toBe(true);
    }
  }
});

test('every code of cells and of the format has a case', () => {
  const expected = cases.flatMap((name) => readMarkers(readFileSync(new URL(name, folder), 'utf8')).expected);
  const huge = found(`note: ${'x'.repeat(1_000_001)}`).findings;
  const met = new Set([...expected.map((at) => at.split(' ')[1]), ...huge.map(({ code }) => code)]);
  expect(Object.keys(formatFindings).filter((code) => code !== 'file.unreadable' && !met.has(code))).toEqual([]);
});

test('every code of a quantity’s reader has its wording', () => {
  // On a vertical leg the cell’s `seen` is reported as the word that it is, before any mark is looked at.
  expect(QUANTITY_CODES.filter((code) => !Object.hasOwn(table, code))).toEqual(['mark.seen']);
});
