/** A message about a value of the wrong type names the expected one in the format's words. */
import { expect, test } from 'vitest';
import { message } from '../../src/model/index.ts';
import { createReader, expressions, visibleFindings } from '../../src/workbook/index.ts';
import { threads } from './threads.ts';

const MACHINE = 'machine: m\nsource: {fires: left}\npath:\n  M1: {leg: 90 mm, aperture: 20 mm}\n---\n';
const reader = createReader({ threads, expressions });
const messages = (cell: string) =>
  visibleFindings(reader.read(MACHINE + cell, { file: 'test.alignbook.yaml', files: new Map() }), []).map((finding) => [
    finding.code,
    message(finding),
  ]);

test.each([
  [
    'marks: M1\nshots: [[centre, centre]]\n',
    '`shots/0`: expected a mark, or a shot such as `{at: far, mark: [1.5 right 2.0 down, 1 right 2.5 down]}`, found a list.',
  ],
  [
    'marks: M1\nshots: {here: []}\n',
    '`shots/here`: expected a mark such as `1.5 right 2.0 down`, or a list of marks, found an empty list.',
  ],
])('%j', (cell, words) => expect(messages(cell)).toContainEqual(['cell.shape', words]));
