/** Whatever stands where something else belongs, the message says in the format's words what belongs there. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { message } from '../../src/model/index.ts';
import { createReader, expressions, settle } from '../../src/workbook/index.ts';
import { threads } from './threads.ts';

const MACHINE = 'machine: m\nsource: {fires: left}\npath:\n  M1: {leg: 90 mm, aperture: 20 mm}\n---\n';
const reader = createReader({ threads, expressions });
const told = (cell: string) =>
  settle(reader.read(MACHINE + cell, { file: 'test.alignbook.yaml', files: new Map() }), []).map((finding) => [
    finding.code,
    message(finding),
  ]);

test.each([
  [
    'marks: M1\nshots: [[centre, centre]]\n',
    '`shots/0`: expected a mark, or a shot such as `{at: far, mark: [1.5 right 2.0 down, 1 right 2.5 down]}`, found a list.',
  ],
  ['marks: M1\nshots: {here: []}\n', '`shots/here`: expected a mark, or a list of marks, found an empty list.'],
])('%j', (cell, words) => expect(told(cell)).toContainEqual(['cell.shape', words]));

const KEYS: Readonly<Record<string, readonly string[]>> = {
  marks: ['shots', 'seen', 'tape', 'pulse'],
  adjust: ['turn', 'shift', 'lock'],
  limits: ['stations', 'reading', 'confidence', 'rules'],
  care: ['did', 'found'],
  checks: ['done', 'open'],
  power: ['reading', 'at'],
  session: ['reason', 'date'],
  machine: ['source', 'path', 'mounts', 'care', 'pulse'],
};
const json = fc.jsonValue({ maxDepth: 3 });
const cells = fc.constantFrom(...Object.keys(KEYS)).chain((kind) =>
  fc.tuple(
    fc.constant(kind),
    fc.constantFrom('M1', 'x'),
    fc
      .subarray([...KEYS[kind]!])
      .chain((keys) => fc.tuple(...keys.map((key) => json.map((value) => `${key}: ${JSON.stringify(value)}\n`)))),
  ),
);

test('never in a library’s', () => {
  fc.assert(
    fc.property(cells, ([kind, name, lines]) => {
      for (const [, words] of told(`${kind}: ${name}\n${lines.join('')}`))
        expect(words).not.toMatch(/\bexpected (Invalid|Too|Unrecognized|expected)\b|undefined/);
    }),
    { numRuns: 400, seed: Number(process.env['SEED'] ?? 1) },
  );
});
