/** A step that is logged and whose marks are not read yet: every view says what to fill in, and none logs it again. */
import { expect, test } from 'vitest';
import { addStep, panelView, statusOf } from '../../src/language/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf, changed } from '../support/workbook.ts';

const ROUND = 'marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n';
const BOOK = bookOf(after(CENTRED.M1, ROUND));
const LOGGED = changed(BOOK.text, [addStep(BOOK)!.change]);

test('the blanks of the step just logged are what to do now', () => {
  const book = bookOf(LOGGED);
  const sentence = 'Read the tapes: M2 near and far';
  expect(statusOf(book)).toMatchObject({ verdict: 'continue', sentence, steps: [] });
  expect(panelView(book, {})).toMatchObject({
    now: { sentence: 'Read the tapes: M2 near and far', sign: { act: 'read' } },
    figure: { station: 'M2' },
  });
  expect(panelView(book, {})!.now).not.toHaveProperty('log');
  expect(addStep(book)).toBeUndefined();
});

test('each mark that is filled in goes from the list, and with the last one there is another step', () => {
  const near = LOGGED.replace(/near: ?\n/, 'near: 0.5 right 2 down\n');
  expect(statusOf(bookOf(near)).sentence).toBe('Read the tape: M2 far');
  const whole = statusOf(bookOf(near.replace(/far: ?\n/, 'far: 0.5 right 2.5 down\n')));
  expect([whole.sentence, whole.steps.length > 0]).toEqual([expect.stringMatching(/^M1: /), true]);
});

test('in lists too, by their places', () => {
  const cell = 'marks: M3\nshots:\n  - {at: near, mark: }\n  - {at: far, with: {M2: far}, mark: 1 right 1 up}\n';
  expect(statusOf(bookOf(after(CENTRED.M1, CENTRED.M2, cell))).sentence).toBe('Read the tape: M3 near');
});

test('blanks above other cells wait for nobody', () =>
  expect(statusOf(bookOf(`${LOGGED}---\nnote: later\n`)).sentence).not.toContain('Read'));

test('what cannot be read is no blank', () => {
  const book = bookOf(after(CENTRED.M1, 'marks: M2\nshots: {near: nonezz, far: centre}\n'));
  expect(statusOf(book).sentence).toMatch(/^Shoot M2/);
});
