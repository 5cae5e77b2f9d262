/** Turns of a screw. To add a case copy a line: the text, turns with a knob of 14 mm, positive = in. */
import { describe, expect, test } from 'vitest';
import { readTurn, signedTurns } from '../../../src/workbook/quantities/index.ts';
import { fixed, INCHES, MM, problemsOf } from './context.ts';

const RIM = 14 * Math.PI;

test.each([
  ['in 1/4', 0.25],
  ['out 1/4', -0.25],
  ['in 1/4 turn', 0.25],
  ['out 0.3 turn', -0.3],
  ['out 1.5 turns', -1.5],
  ['in 1 1/2 turns', 1.5],
  ['in 90 deg', 0.25],
  ['in 1 flat', 1 / 6],
  ['out 2 flats', -1 / 3],
  ['in 1/4 + 1/8', 0.375],
  ['in 1/4 turn + 1 flat', 0.25 + 1 / 6],
  ['in 0', 0],
  ['out 0', 0],
  ['in 1/8 in at rim', 3.175 / RIM],
  ['out 3 mm at rim', -3 / RIM],
  ['in 3 at the rim', 3 / RIM],
  ['  in  1/4  ', 0.25],
])('%s', (text, turns) => {
  const reading = readTurn(text, MM);
  expect(problemsOf(reading, text)).toEqual([]);
  expect(signedTurns(reading.value!, 14)).toBeCloseTo(turns, 12);
});

test('what is told', () => {
  expect(readTurn('in 1/4 ± 1/8', MM).value).toEqual({ sense: 'in', amount: { turns: 0.25, u: 0.125 } });
  expect(readTurn('out 1/8 at rim', INCHES).value).toEqual({ sense: 'out', amount: { rim: 3.175 } });
});

test('travel of the rim is no turn without the knob', () => {
  expect(signedTurns({ sense: 'in', amount: { rim: 3 } })).toBeUndefined();
  expect(signedTurns({ sense: 'in', amount: { turns: 3 } })).toBe(3);
});

describe('what is no turn', () => {
  test.each([
    ['', 'turn.sense'],
    ['1/4', 'turn.sense'],
    ['1/4 in', 'turn.sense'],
    ['inch 4', 'turn.sense'],
    ['in', 'turn.amount'],
    ['in foo', 'quantity.unreadable at ‘foo’'],
    ['in 1,5', 'quantity.decimalComma at ‘1,5’ → ‘1.5’'],
    ['in 1/4 trun', 'quantity.unit at ‘trun’'],
    ['in 400', 'quantity.range at ‘400’'],
    ['in 3 W', 'quantity.dimension at ‘3 W’'],
    ['in 3 deg at rim', 'quantity.dimension at ‘3 deg’'],
    ['in 1/4 out', 'quantity.unit at ‘out’'],
  ])('%s', (text, problem) => expect(problemsOf(readTurn(text, MM), text)).toEqual([problem]));

  test.each([
    ['in 1/8 in', 'turn.length', 'in 1/8 in at rim'],
    ['out 3 mm', 'turn.length', 'out 3 mm at rim'],
    ['1/4 turn out', 'turn.sense', 'out 1/4 turn'],
    ['1/4 turn in', 'turn.sense', 'in 1/4 turn'],
    ['3/8 out', 'turn.sense', 'out 3/8'],
    ['cw 1/4', 'turn.sense', 'in 1/4'],
    ['Anticlockwise 1/4', 'turn.sense', 'out 1/4'],
    ['In 1/4', 'turn.sense', 'in 1/4'],
    ['in -1/4', 'turn.amount', 'out 1/4'],
    ['out -1/8 in at rim', 'turn.amount', 'in 1/8 in at rim'],
  ])('%s has a fix', (text, code, result) => {
    const reading = readTurn(text, MM);
    expect(reading.problems.map((problem) => problem.code)).toEqual([code]);
    expect(fixed(text, reading)).toBe(result);
    expect(problemsOf(readTurn(result, MM), result)).toEqual([]);
  });
});
