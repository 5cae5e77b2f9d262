/** Checks that a visit left open come before the first shot. */
import { expect, test } from 'vitest';
import type { Evaluation } from '../../src/model/index.ts';
import { sentenceOf } from '../../src/language/hints/sentence.ts';
import { CENTRED, log } from '../support/log.ts';

const SESSION = 'session: spring service\n';
const OPEN = 'checks: make safe\ndone: [eyewear]\nopen: [covers closed, fire watch]\n';
const kinds = ({ steps }: Evaluation) => steps.map(({ kind }) => kind);

test('the first step is to make safe, with the cell that logs it, and the verdict stays', () => {
  const evaluation = log(SESSION, OPEN);
  expect([evaluation.verdict, ...kinds(evaluation)]).toEqual(['continue', 'check', 'shoot']);
  expect(evaluation.steps[0]).toMatchObject({
    items: ['covers closed', 'fire watch'],
    say: 'Before you fire, check what is still open: covers closed and fire watch.',
    cell: 'checks: make safe\ndone:\n  - covers closed\n  - fire watch\n',
  });
  expect(sentenceOf(evaluation, evaluation.steps)).toMatchObject({
    sentence: 'Make safe (2 open)',
    then: [expect.stringMatching(/^Then shoot M1/), expect.anything()],
  });
});

test('the cell clears it', () => {
  const [step] = log(SESSION, OPEN).steps;
  expect(kinds(log(SESSION, OPEN, step!.cell!))).toEqual(['shoot']);
});

test('a shot that was fired all the same does not clear it', () =>
  expect(kinds(log(SESSION, OPEN, CENTRED.M1))).toEqual(['check', 'shoot']));

test('checks of two lists are logged together', () =>
  expect(log(SESSION, OPEN, 'checks: room\nopen: [extraction]\n').steps[0]!.cell).toBe(
    'checks: what was open\ndone:\n  - covers closed\n  - fire watch\n  - extraction\n',
  ));

test('nothing is asked before a sign-off, where nothing is fired, nor in a visit that did not leave them open', () => {
  const { M1, M2, M3, lens } = CENTRED;
  expect(kinds(log(SESSION, OPEN, M1, M2, M3, lens))).toEqual(['release']);
  expect(kinds(log(SESSION, OPEN, 'session: another\n'))).toEqual(['shoot']);
});
