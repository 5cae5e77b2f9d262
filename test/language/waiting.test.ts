/** Values to fill in: information at the end of the log, an error once the log goes on below them. */
import { expect, test } from 'vitest';
import { message, severity } from '../../src/model/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';

const BLANK = 'marks: M2\nshots: {near: , far: }\n';
const HALF = 'marks: M2\nshots: {near: , far: 6 right 5.5 down}\n';

const told = (...cells: readonly string[]) =>
  bookOf(after(CENTRED.M1, ...cells))
    .findings()
    .filter(({ code }) => code === 'cell.blank' || code === 'log.unread')
    .map((finding) => `${severity(finding)} ${message(finding)}`);

const NEAR = 'information `shots/near` is blank: write a mark such as `1.5 right 2.0 down`, or a list of marks.';
const WAITS = [NEAR, NEAR.replace('near', 'far')];
const LEFT = [
  'warning This cell has errors, so the marks on M2 are treated as not measured.',
  ...WAITS.map((one) => one.replace('information', 'error')),
];

test('a blank at the end waits, and its cell has no errors', () => {
  expect(told(BLANK)).toEqual(WAITS);
  expect(told(BLANK, 'note: the kettle is on\n')).toEqual(WAITS);
});

test('what is measured, moved, begun or signed below makes it an error', () => {
  for (const below of [
    'marks: M2\nshots: {near: centre, far: centre}\n',
    'session: later\n',
    'release: in service\nby: mo\n',
  ])
    expect(told(BLANK, below), below).toEqual(LEFT);
});

test('a mark that was read counts, while the other one of its cell waits', () => {
  expect(told(HALF)).toEqual([NEAR]);
  const book = bookOf(after(CENTRED.M1, HALF));
  expect(book.evaluation().stations.find(({ name }) => name === 'M2')?.state).not.toBe('unread');
});

test('two steps logged at once wait together', () =>
  expect(told('adjust: M1\nturn: {A: }\n', BLANK)).toEqual([
    'information `turn/A` is blank: write a turn such as `in 1/4`.',
    ...WAITS,
  ]));

test('a cell with another error does not wait as a whole', () =>
  expect(told('marks: M2\nshots: {near: , far: 6 rigth}\n')).toEqual([LEFT[0], NEAR]));

test('a machine is never left blank', () => {
  const book = bookOf('machine: dory\nsource: {fires: left}\npath: {M1: {leg: , aperture: 20 mm}}\n');
  expect(book.findings().map((finding) => [finding.code, severity(finding)])).toContainEqual(['cell.blank', 'error']);
});
