/** While a version-control conflict stands, nothing is advised but to resolve it. */
import { expect, test } from 'vitest';
import { addStep, panelView, statusOf } from '../../src/language/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';

const marks = (far: string) => `marks: M2\nshots: {near: 1.5 right 2 down, far: ${far}}\n`;
const WHOLE = after(CENTRED.M1, marks('6 right 5.5 down'));
const CONFLICT = `${after(CENTRED.M1)}---\n<<<<<<< here\n${marks('6 right 5.5 down')}=======\n${marks('4 left 1 up')}>>>>>>> there\n`;

test('a turn is advised without it, and with it none: in every view', () => {
  expect(
    bookOf(WHOLE)
      .evaluation()
      .steps.map(({ kind }) => kind),
  ).toContain('turn');
  const book = bookOf(CONFLICT);
  const { verdict, steps, expected, whole } = book.evaluation();
  expect([verdict, steps.map(({ kind }) => kind), expected, whole]).toEqual(['blocked', ['repair'], [], undefined]);
  expect(statusOf(book)).toMatchObject({ verdict: 'blocked', sentence: 'Blocked: resolve the conflict first' });
  expect(panelView(book, {})).toMatchObject({ now: { sentence: 'Blocked: resolve the conflict first' } });
  expect(addStep(book)).toBeUndefined();
});

test('findings and stations stay', () => {
  const book = bookOf(CONFLICT);
  expect(book.findings().map(({ code }) => code)).toContain('cells.conflict');
  expect(book.evaluation().stations.map(({ name }) => name)).toEqual(['M1', 'M2', 'M3', 'lens']);
});

test('once it is resolved, the advice is back', () =>
  expect(statusOf(bookOf(CONFLICT.replace(/<{7}.*\n|={7}[^]*>{7}.*\n/g, ''))).sentence).toBe(
    statusOf(bookOf(WHOLE)).sentence,
  ));
