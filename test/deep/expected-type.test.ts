/** A value of the wrong type gives a message that names the expected type in the format's words. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { message } from '../../src/model/index.ts';
import { createReader, expressions, visibleFindings } from '../../src/workbook/index.ts';
import { threads } from '../workbook/threads.ts';
import { drawn } from '../support/amount.ts';

const MACHINE = 'machine: m\nsource: {fires: left}\npath:\n  M1: {leg: 90 mm, aperture: 20 mm}\n---\n';
const reader = createReader({ threads, expressions });
const messagesOf = (cell: string) =>
  visibleFindings(reader.read(MACHINE + cell, { file: 'test.alignbook.yaml', files: new Map() }), []).map((finding) => [
    finding.code,
    message(finding),
  ]);

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

test('never in the words of a library', () => {
  fc.assert(
    fc.property(cells, ([kind, name, lines]) => {
      for (const [, words] of messagesOf(`${kind}: ${name}\n${lines.join('')}`))
        expect(words).not.toMatch(/\bexpected (Invalid|Too|Unrecognized|expected)\b|undefined/);
    }),
    drawn(400),
  );
});
