/** What stands below the cells of a notebook. */
import { readdirSync, readFileSync } from 'node:fs';
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { expect, test } from 'vitest';
import { CellSheet } from '../../src/drawing/index.ts';
import { cellView } from '../../src/language/index.ts';
import { sheetHeight, type AdjustView, type CareView, type MarksView } from '../../src/model/index.ts';
import { after, bookOf } from '../support/workbook.ts';

const ROUND = 'marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n';
const viewsOf = (...cells: string[]) => {
  const book = bookOf(after(...cells));
  return book.split.cells.map((_, cell) => cellView(book, cell));
};

test('below marks: the tape, the verdict and every limit, as they were then', () => {
  const [machine, limits, marks] = viewsOf(ROUND, 'event: bumped\n');
  expect(machine?.kind).toBe('machine');
  expect(limits).toBeUndefined();
  expect(marks).toMatchObject({ kind: 'marks', state: 'outside', word: 'outside', detail: '< 1 % within' });
  expect((marks as MarksView).requirements).toEqual([
    { name: 'centre, far (front)', value: '8.1 ± 0.2 mm', limit: '2 mm', isPredicted: false },
    { name: 'spread', value: '5.7 ± 0.3 mm', limit: '1.5 mm', isPredicted: false },
  ]);
  expect((marks as MarksView).figure.marks).toHaveLength(2);
});

test('below an adjustment: what was turned, and at the last one what was predicted and what came', () => {
  const turned = (k: number, ...cells: string[]) => viewsOf(ROUND, ...cells)[k] as AdjustView;
  const [one, two] = ['adjust: M1\nturn: {A: out 1/4}\n', 'adjust: M1\nturn: {A: in 1/8, B: in 1/8}\n'];
  const shot = 'marks: M2\nshots: {near: 1 right 1 down, far: none}\n';
  expect(turned(3, one, two, shot)).toMatchObject({ kind: 'adjust', marks: [], net: 'A out 1/4, B 0, C 0' });
  const last = turned(4, one, two, shot);
  expect(last).toMatchObject({ station: 'M2', net: 'A out 1/8, B in 1/8, C 0' });
  expect(last.mount!.screws.map(({ name, turns }) => [name, turns])).toEqual([
    ['A', 1 / 8],
    ['B', 1 / 8],
    ['C', 0],
  ]);
  const [near, far] = last.marks;
  expect(near).toMatchObject({ place: 'near (rear)', came: '1.0 right (machine left) 1.0 down' });
  expect(near!.predicted).toMatch(/^\d/);
  expect(near!.offBy).toMatch(/ mm$/);
  expect(far).toMatchObject({ place: 'far (front)', came: 'missed the tape' });
  expect(far).not.toHaveProperty('offBy');
  // Nothing was shot yet.
  const open = turned(3, one);
  expect(open.marks.map(({ place }) => place)).toEqual(['near (rear)', 'far (front)']);
  expect(open.marks.every(({ predicted, came }) => predicted !== undefined && came === undefined)).toBe(true);
  // A nut alone moves nothing.
  expect(viewsOf(ROUND, 'adjust: M1\nlock: tight\n')[3]).toBeUndefined();
});

test('a prediction that chance does not explain is marked', () => {
  const views = viewsOf(
    ROUND,
    'adjust: M1\nturn: {A: out 1/4}\n',
    'marks: M2\nshots: {near: 4 left 6 up, far: 9 left 9 up}\n',
  );
  expect(views[4]).toMatchObject({ kind: 'marks', state: 'unexplained' });
  expect(views[3]).toMatchObject({ remark: expect.stringMatching(/^Not as predicted/) });
  expect((views[3] as AdjustView).marks.some(({ isFar }) => isFar)).toBe(true);
});

test('below care: what it did to the marks, the visits before, and the next date', () => {
  const book = bookOf(readFileSync('examples/1-full-service.alignbook.yaml', 'utf8'));
  const views = book.split.cells.flatMap((_, cell) => cellView(book, cell) ?? []);
  const cares = views.filter((view): view is CareView => view.kind === 'care');
  expect(cares.length).toBeGreaterThan(2);
  for (const { effect, visits } of cares) {
    expect(effect).toMatch(/^(nothing moved(, marks hold)?|the marks on .* are stale)$/);
    expect(visits.length).toBeGreaterThan(0);
  }
  expect(cares.some(({ due }) => due?.startsWith('next by 20'))).toBe(true);
});

test('a cell with errors keeps its place; checks and notes have none', () => {
  const [, , broken, checks, note] = viewsOf(
    'marks: M2\nshots: {near: 1 rihgt}\n',
    'checks: a\ndone: [b]\n',
    'note: c\n',
  );
  expect(broken).toEqual({ kind: 'unread' });
  expect([checks, note]).toEqual([undefined, undefined]);
});

/** Words and numbers of at least this length: a shorter one may well stand in both. */
const LONG = 12;

test('what stands below a cell repeats no line of it, and no value beside it', () => {
  const counts: Record<string, number> = {};
  for (const name of readdirSync('examples').filter((file) => file.endsWith('.yaml'))) {
    const files = {
      'machines/bollard.alignbook.yaml': readFileSync('examples/machines/bollard.alignbook.yaml', 'utf8'),
    };
    const book = bookOf(readFileSync(`examples/${name}`, 'utf8'), files);
    book.split.cells.forEach(({ text }, cell) => {
      const view = cellView(book, cell);
      const kind = view?.kind ?? 'none';
      counts[kind] = (counts[kind] ?? 0) + 1;
      // The place below it is made from its text alone, before anything is computed.
      if (view && view.kind !== 'unread') expect(sheetHeight(text), text).toBeDefined();
      if (!view) return;
      const html = renderToString(h(CellSheet, { view }));
      const words = html
        .replace(/<(title|desc)>.*?<\/\1>/g, '')
        .replace(/<[^>]*>/g, ' ')
        .replace(/\s+/g, ' ');
      for (const line of text.split('\n').map((one) => one.trim()))
        if (line.length >= LONG) expect(words).not.toContain(line);
      // The picture first, the facts beside it.
      if (view.kind === 'marks')
        expect(html).toMatch(/^<div class="sheet figure row"><svg .*<\/svg><div class="facts">/);
    });
  }
  console.log(counts);
  for (const kind of ['marks', 'adjust', 'care', 'machine', 'none']) expect(counts[kind]).toBeGreaterThan(0);
});
