/** As found and as left stand side by side: one scale, or the eye compares the wrong thing. */
import { expect, test } from 'vitest';
import { recordOf, toHtml } from '../../src/record/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';

const IDENTITY = { file: 'dory.alignbook.yaml', hash: '0'.repeat(64), version: '0.0.0' };

test('the limit is as large on both tapes of a station, however far out it was found', () => {
  const book = bookOf(
    after(
      'session: service\ndate: 2026-03-07\n',
      CENTRED.M1,
      'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 8.0 right 6.0 down}\n',
      'adjust: M1\nturn: {A: out 1/4, B: in 1/4}\n',
      'marks: M2\nshots: {near: 0.5 right 0.5 up, far: 0.5 left 0.5 up}\n',
    ),
  );
  const page = toHtml(recordOf(book, IDENTITY), IDENTITY);
  const limits = [...page.matchAll(/<figure>.*?<\/figure>/gs)]
    .filter(([figure]) => figure.includes('Tape on M2'))
    .map(([figure]) => /class="ink limit"[^>]* r="([\d.]+)"/.exec(figure)![1]);
  expect(limits.length).toBe(2);
  expect(limits[0]).toBe(limits[1]);
});
