/** The usual layout of random texts. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formatCell, readTree } from '../../src/workbook/index.ts';
import { drawn, runs } from '../support/amount.ts';

test('formatting is idempotent and keeps the meaning', () => {
  const piece = fc.constantFrom(
    'marks: M2\n',
    'date:  2026-03-14\n',
    'shots:\n',
    '    near: 1 right\n',
    '  far: {right: 1,up: 2 }\n',
    '# c\n',
    '  # d\n',
    'note: |\n',
    '   text # no\n',
    '- a\n',
    '  - b:  c\n',
    'x: "q  ,  r"\n',
    '\n',
    'by : kt\n',
    '\t',
    'l: [ a,b ,c]\n',
    '  [\n  1 ]\n',
  );
  let laidOut = 0;
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
      const text = pieces.join('');
      const once = formatCell(text);
      if (once !== text) laidOut++;
      expect(formatCell(once)).toBe(once);
      const tree = (of: string) =>
        JSON.stringify(readTree(of).tree, (_, value: unknown) =>
          value !== null && typeof value === 'object' && !Array.isArray(value)
            ? Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))
            : value,
        );
      expect(tree(once)).toBe(tree(text));
    }),
    drawn(3000),
  );
  console.log(`${laidOut} texts laid out anew`);
  expect(laidOut).toBeGreaterThan(runs(100));
});
