/** What somebody signed: which cells, and what is not offered there; and what belongs where a value is blank. */
import { expect, test } from 'vitest';
import { blanksOf, completionsAt, createGuide, signatureBelow, signedCells } from '../../src/language/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';

const RELEASE = 'release: in service\nby: kt\ndate: 2026-03-14\n';
const SIGNED = bookOf(after('session: spring\n', CENTRED.M1, RELEASE, CENTRED.M2));
const guide = createGuide();

test('a visit is signed from its first cell to its release', () => {
  expect(signedCells(SIGNED)).toEqual([{ from: 2, to: 4 }]);
  expect([2, 3, 4, 5].map((cell) => signatureBelow(SIGNED, cell))).toEqual([
    ...[1, 2, 3].map(() => ({ by: 'kt', date: '2026-03-14' })),
    undefined,
  ]);
});

test('completion offers nothing in it, but in its release, the machine and what follows', () => {
  const offered = (word: string) => {
    const at = SIGNED.text.lastIndexOf(word);
    expect(at).toBeGreaterThan(0);
    return completionsAt(SIGNED, guide, at + word.length).length > 0;
  };
  expect(offered('marks: M1')).toBe(false);
  expect(['release: in', 'sends: fr', 'marks: M2'].map(offered)).toEqual([true, true, true]);
});

test('what belongs in a blank, in the words of its leg', () => {
  const log = after(
    'session: spring\nby: \ndate:\n',
    'marks: M2\nshots: {near: , far: 1 right}\n',
    'marks: lens\nshots:\n  - {at: here, mark: }\n',
    'adjust: M1\nturn: {A: }\n',
    'power: M2\nreading: \n',
  );
  const blanks = blanksOf(bookOf(log));
  expect(blanks.map(({ text }) => text)).toEqual([
    'name',
    'YYYY-MM-DD',
    'right or left, up or down',
    expect.stringMatching(/^right or left, (front or rear|up or down)$/),
    'in or out, then the turn',
    expect.stringMatching(/^power|W/),
  ]);
  expect(log.slice(0, blanks[2]!.at)).toMatch(/near: $/);
});
