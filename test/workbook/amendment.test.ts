/** Corrections of past cells: what was is kept, and undoing the corrections gives the cell as it first stood. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { before, readTree, withAmendment } from '../../src/workbook/index.ts';
import { read } from './sample.ts';

const WHY = { date: '2026-03-15', by: 'kt', reason: 'misread: the other edge' };
const FAR = 'marks: M2\nshots:\n  near: 1 right  # by the rail\n  far: 0.5 left 0.5 up\n';

test('one changed mark, with its comment kept', () => {
  const corrected = FAR.replace('0.5 left', '0.5 right');
  expect(withAmendment(FAR, corrected, WHY)).toBe(
    `${corrected}amended:\n  - {was: {shots: {far: 0.5 left 0.5 up}}, date: 2026-03-15, by: kt, reason: "misread: the other edge"}\n`,
  );
});

test('what was not there, what went away, and a cell that was put in later', () => {
  const was = (former: string | undefined, corrected: string) =>
    /was: (.*), date/.exec(withAmendment(former, corrected, WHY) ?? '')?.[1];
  expect(was('event: moved\n', 'event: moved\nnote: by hand\n')).toBe('{note: nothing}');
  expect(was('event: moved\nnote: by hand\n', 'event: moved\n')).toBe('{note: by hand}');
  expect(was(undefined, FAR)).toBe('nothing');
  expect(was('care: M2\ndid: replaced\n', 'note: it never happened\n')).toBe(
    '{care: M2, did: replaced, note: nothing}',
  );
  expect(was('checks: a\ndone: [x, y]\n', 'checks: a\ndone: [x]\n')).toBe('{done: [x, y]}');
});

test('notation alone is no correction', () => {
  expect(withAmendment(FAR, 'marks: M2\nshots: {far: "0.5 left 0.5 up", near: 1 right}\n', WHY)).toBeUndefined();
});

test('a second correction stands behind the first, in either notation', () => {
  const once = withAmendment(FAR, FAR.replace('0.5 left', '0.5 right'), WHY)!;
  for (const first of [once, once.replace(/amended:\n {2}- (.*)\n/, 'amended: [$1]\n')]) {
    const twice = withAmendment(first, first.replace('near: 1 right', 'near: 1.5 right'), WHY)!;
    expect(read(`---\n${twice}`).codes.filter((code) => code.startsWith('yaml'))).toEqual([]);
    expect(before(twice, 1)).toEqual(before(first, 0));
    expect(before(twice, 2)).toEqual(readTree(FAR).tree);
  }
});

test('line ends and an end mark stay', () => {
  const former = FAR.replaceAll('\n', '\r\n');
  const amended = withAmendment(former, former.replace('1 right', '2 right'), WHY)!;
  expect(amended.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  expect(withAmendment(`${FAR}...\n`, `${FAR.replace('1 right', '2 right')}...\n`, WHY)).toMatch(/\}\n\.\.\.\n$/);
});

test('any correction of any cell is undone', () => {
  const word = fc.oneof(
    fc.constantFrom('0.5 left', 'in 1/4', 'a: b', '[x', "it's", 'yes', '12', '# no', ' ', '', 'é "q"'),
    fc.string(),
  );
  const value = fc.letrec((tie) => ({
    tree: fc.oneof(
      { maxDepth: 2 },
      word,
      fc.array(tie('tree'), { maxLength: 3 }),
      fc.dictionary(fc.constantFrom('near', 'far', 'a'), tie('tree')),
    ),
  })).tree;
  const cell = fc
    .dictionary(fc.constantFrom('shots', 'note', 'by', 'seen'), value)
    .map((keys) => ({ marks: 'M2', ...keys }));
  let count = 0;
  fc.assert(
    fc.property(cell, cell, (then, now) => {
      const text = (of: object) => `${JSON.stringify(of)}\n`;
      const block = (of: object) =>
        Object.entries(of)
          .map(([key, one]) => `${key}: ${JSON.stringify(one)}\n`)
          .join('');
      const former = readTree(text(then)).tree;
      // The format's own word for a key that was not there.
      fc.pre(!JSON.stringify(then).includes('"nothing"'));
      const amended = withAmendment(block(then), block(now), WHY);
      if (amended === undefined) expect(readTree(text(now)).tree).toEqual(former);
      else {
        count++;
        expect(before(amended, 1)).toEqual(former);
      }
    }),
    { numRuns: 400 },
  );
  console.log(`${count} corrections undone`);
  expect(count).toBeGreaterThan(200);
});
