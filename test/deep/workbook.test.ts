/** Properties of any text. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { message } from '../../src/model/index.ts';
import { GOOD, MACHINE, read } from '../workbook/sample.ts';
import { drawn } from '../support/amount.ts';

/** Pieces of workbooks, so that random texts get past the first error. */
const piece = fc.oneof(
  fc.constantFrom(
    '---\n',
    '...\n',
    'marks: M2\n',
    'shots: ',
    '{near: ',
    '1.5 right 2.0 down',
    ', far: ',
    '}',
    '\n',
    '  ',
    '- ',
    ': ',
    '# ',
    '"',
    "'",
  ),
  fc.constantFrom(
    'adjust: M1\n',
    'turn: ',
    'in 1/4',
    '&a ',
    '*a',
    '!t ',
    '<<: ',
    '|\n',
    '[',
    ']',
    'x-a: ',
    'note: ',
    'machine: lark\n',
    '<<<<<<< a\n',
    '=======\n',
    '>>>>>>> b\n',
  ),
  fc.string({ unit: 'binary', maxLength: 8 }),
);
const anyText = fc.array(piece, { maxLength: 40 }).map((pieces) => pieces.join(''));

function checkFindings(text: string): void {
  const { workbook, findings } = read(text);
  for (const { cell, span, fix, ...finding } of findings) {
    const { length } = workbook.split.cells[cell]?.text ?? text;
    for (const { start, end } of [span, fix?.span ?? span])
      expect(0 <= start && start <= end && end <= length).toBe(true);
    expect(message({ cell, span, ...finding })).not.toMatch(/`\?`|undefined|\[object/);
  }
}

test('any text gives entries and findings, never a throw', () => {
  fc.assert(fc.property(anyText, checkFindings), drawn(400));
});

test('any text below a good machine too', () => {
  fc.assert(
    fc.property(anyText, (text) => checkFindings(`${MACHINE}---\n${text}`)),
    drawn(300),
  );
});

test('a character deleted, inserted or changed anywhere in a good workbook never throws', () => {
  const edit = fc.record({
    at: fc.nat(GOOD.length - 1),
    remove: fc.nat(3),
    put: fc.constantFrom('', ' ', ',', ':', '-', '"', '#', '{', '\n', 'x', '9', '\t', '*', '\r'),
  });
  fc.assert(
    fc.property(edit, ({ at, remove, put }) => checkFindings(GOOD.slice(0, at) + put + GOOD.slice(at + remove))),
    drawn(500),
  );
});

test('a bad cell never hides the others', () => {
  const { entries } = read(GOOD);
  const bad = anyText.filter((text) => !/^(---|\.\.\.|<{7}|={7}|>{7})/m.test(text) && !/machine|\r/.test(text));
  const serialized = (entry: object) => JSON.stringify(entry);
  fc.assert(
    fc.property(bad, fc.integer({ min: 1, max: entries.length - 1 }), (text, after) => {
      const cells = GOOD.split('---\n');
      const all = read([...cells.slice(0, after), `${text}\n`, ...cells.slice(after)].join('---\n')).workbook.entries;
      const others = all.filter(({ cell }) => cell !== after).map(({ entry }) => serialized(entry));
      expect(others).toEqual(entries.map(serialized));
    }),
    drawn(200),
  );
});

test('inches and millimetres of the same length give the same entry', () => {
  const length = fc.integer({ min: 0, max: 64 });
  fc.assert(
    fc.property(length, length, (right, up) => {
      const cell = (text: string) =>
        JSON.stringify(
          read(`${MACHINE}---\nmarks: M2\nshots: {near: ${text}}`).entries.at(-1),
          (key, value: unknown) => (key === 'spans' ? 0 : typeof value === 'number' ? +value.toPrecision(12) : value),
        );
      const mm = (sixteenths: number) => +((sixteenths * 25.4) / 16).toFixed(10);
      expect(cell(`${right}/16 in right ${up}/16 in down`)).toBe(cell(`${mm(right)} right ${mm(up)} mm down`));
    }),
    drawn(60),
  );
});
