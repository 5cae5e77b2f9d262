/** Where visits begin and end, and what is judged with what. */
import { expect, test } from 'vitest';
import { judgedIn, judgedUntil, visitsIn, type Entry, type LogEntry } from '../../src/model/index.ts';

/**
 * One letter an entry: S session, M marks, A adjust, C care, P power, E event, K checks, N note, L limits, R release, U
 * unread.
 */
const KINDS: Readonly<Record<string, Partial<Entry>>> = {
  S: { kind: 'session', title: 'look' },
  M: { kind: 'marks' },
  A: { kind: 'adjust' },
  C: { kind: 'care' },
  P: { kind: 'power' },
  E: { kind: 'event' },
  K: { kind: 'checks' },
  N: { kind: 'note' },
  L: { kind: 'limits' },
  R: { kind: 'release', to: 'in service' },
  U: { kind: 'unread' },
};
const entries = (letters: string) =>
  [...letters].map((letter, cell): LogEntry => ({ cell, entry: { spans: {}, ...KINDS[letter] } as Entry }));
/** `SMR`: the letters of each visit; `*` behind a name marks one that has no session, `…` one that is still open. */
const cut = (letters: string) =>
  visitsIn(entries(letters))
    .map(({ from, to, opening, isEnded }) => `${letters.slice(from, to)}${opening ? '' : '*'}${isEnded ? '' : '…'}`)
    .join(' ');

test.each([
  ['', ''],
  ['LNKU', ''],
  ['LSM', 'SM…'],
  ['SMNSM', 'SMN SM…'],
  ['SMR', 'SMR'],
  ['SMRNKL', 'SMR'],
  ['SMRR', 'SMR'],
  ['SMRNMA', 'SMR MA*…'],
  ['SMRCNRE', 'SMR CNR* E*…'],
  ['SMRKP', 'SMR P*…'],
  ['SMRNUSM', 'SMR SM…'],
  ['LKMASM', 'LKMA* SM…'],
  ['LMRA', 'LMR* A*…'],
  ['RLM', 'M*…'],
  ['SSR', 'S SR'],
])('%s is cut into "%s"', (letters, visits) => {
  expect(cut(letters)).toBe(visits);
});

test.each([
  ['LN', 'LN'],
  ['LSMNSM', 'LSMN SM'],
  ['LSMRLNSM', 'LSMR SM'],
  ['SMRNRN', 'SMR R'],
])('in %s rules look at the end of "%s"', (letters, judged) => {
  expect(
    judgedIn(entries(letters))
      .map(({ from, to }) => letters.slice(from, to))
      .join(' '),
  ).toBe(judged);
});

test.each([
  ['LSMRLNSM', [4, 4, 4, 4, 5, 6, 8, 8]],
  ['LNL', [3, 3, 3]],
  ['LSMRNL', [4, 4, 4, 4, 5, 6]],
])('in %s each entry is judged with those before %j', (letters, ends) => {
  const visits = visitsIn(entries(letters));
  expect([...letters].map((_, index) => judgedUntil(visits, index, letters.length))).toEqual(ends);
});
