/** `clockwise` is `in` with a right-hand thread only. */
import { expect, test } from 'vitest';
import { below, MACHINE, read } from './sample.ts';

const fixOf = (machine: string, turn: string) =>
  read(`${machine}---\nadjust: M1\nturn: {A: ${turn}}\n`).findings.find(({ code }) => code === 'turn.sense')?.fix?.text;

test.each([
  ['clockwise 1/4', 'in'],
  ['ccw 1/4', 'out'],
  ['inward 1/4', 'in'],
  ['1/4 turn out', 'out 1/4 turn'],
])('`%s`: `%s` is offered', (turn, fix) => expect(fixOf(MACHINE, turn)).toBe(fix));

test.each([
  ['clockwise 1/4', undefined],
  ['ccw 1/4', undefined],
  ['inward 1/4', 'in'],
  ['1/4 turn out', 'out 1/4 turn'],
])('`%s` where a mount has a left-hand thread: %s', (turn, fix) =>
  expect(fixOf(MACHINE.replace('thread: M4', 'thread: M4 LH'), turn)).toBe(fix),
);

test('it is wrong either way', () =>
  expect(below('adjust: M1\nturn: {A: clockwise 1/4}').codes).toEqual(['turn.sense']));
