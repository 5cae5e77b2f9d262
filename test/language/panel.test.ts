/** What the panel is given: one sentence in every state, the shots by their names, and what a turn is predicted to do. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { adviceNow, MARK_IN_STEP, panelView, placeInStep, placeMark } from '../../src/language/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf, changed } from '../support/workbook.ts';

const OUTSIDE = 'marks: M2\nshots: {near: 0.5 right 0.5 up, far: 2.5 right 3.0 down}\n';

test('the sentence has every turn of the step, and what belongs to it follows in sentences', () => {
  const cells = readFileSync('examples/1-full-service.alignbook.yaml', 'utf8').split(/^---$/m);
  let turns = 0;
  for (let count = 2; count <= cells.length; count++) {
    const book = bookOf(cells.slice(0, count).join('---'));
    const { sentence, then, steps } = adviceNow(book);
    for (const step of steps) {
      if (step.kind !== 'turn') continue;
      expect(sentence).toContain(`${step.screw} ${step.turns > 0 ? 'in' : 'out'} `);
      turns++;
    }
    expect(sentence).not.toMatch(/[….]$|next:/);
    expect(sentence.length).toBeLessThan(60);
    for (const one of then) expect(one).toMatch(/[.)]$/);
  }
  console.log(`${turns} turns in ${cells.length - 1} states`);
  expect(turns).toBeGreaterThan(4);
});

test('with more than one carriage a shot is named by both, its own first', () => {
  const book = bookOf(after(CENTRED.M1, CENTRED.M2));
  const { now, shots } = panelView(book, {})!;
  expect(now.sentence).toBe('Shoot M3');
  expect(now.then[0]).toBe('Head near, gantry near; head far, gantry far.');
  expect(shots.map(({ name, state }) => [name, state])).toEqual([
    ['head near, gantry near', 'open'],
    ['head far, gantry far', 'open'],
  ]);
});

test('a list of marks at the only place is numbered from one', () => {
  const { shots } = panelView(bookOf(after('marks: M1\nshots: [0.5 right 0 up, 1 right 0 up]\n')), { station: 'M1' })!;
  expect(shots.map(({ name, lines }) => [name, lines.map(({ words }) => words)])).toEqual([
    ['one place only (1)', ['0.5 right', '0']],
    ['one place only (2)', ['1.0 right', '0']],
  ]);
});

test('each line of a reading has the machine’s word for its axis', () => {
  const { shots } = panelView(bookOf(after(CENTRED.M1, OUTSIDE)), {})!;
  expect(shots.map(({ name, end, lines, state }) => ({ name, end, lines, state }))).toEqual([
    {
      name: 'gantry near',
      end: 'rear',
      state: 'read',
      lines: [{ words: '0.5 right', machine: 'machine left' }, { words: '0.5 up' }],
    },
    {
      name: 'gantry far',
      end: 'front',
      state: 'read',
      lines: [{ words: '2.5 right', machine: 'machine left' }, { words: '3.0 down' }],
    },
  ]);
});

test('the turns that are shown are the advised ones until others are tried, and what they bring is predicted', () => {
  const book = bookOf(after(CENTRED.M1, OUTSIDE));
  const view = panelView(book, {})!;
  expect(view.turns).toEqual(view.advised);
  expect(view.advised.map(({ part, screw }) => `${part} ${screw}`)).toEqual(['M1 A', 'M1 B']);
  expect(view).not.toHaveProperty('triedCell');
  expect(view.outlook.map(({ name }) => name)).toEqual(['centre', 'spread', 'within']);
  expect(view.outlook[0]).toMatchObject({ now: '3.9 mm' });
  const none = panelView(book, { turns: [] })!;
  expect(none.outlook[0]!.then).toBe('3.9 of 2 mm');
  expect(Number.parseFloat(view.outlook[0]!.then)).toBeLessThan(2);
  const same = panelView(book, { turns: view.advised.map(({ part, screw, turns }) => ({ part, screw, turns })) })!;
  expect(same).not.toHaveProperty('triedCell');
  expect(same.outlook).toEqual(view.outlook);
});

test('a mark that no cell has a place for is written with the advised shot, into its own blank', () => {
  const book = bookOf(after(CENTRED.M1));
  const { shots } = panelView(book, {})!;
  expect(shots.map(({ slot }) => slot?.cell)).toEqual([MARK_IN_STEP, MARK_IN_STEP]);
  const text = changed(book.text, placeInStep(book, shots[1]!.slot!, { right: 1.4, up: -2 })!);
  expect(text.slice(book.text.length)).toBe('---\nmarks: M2\nshots:\n  near: \n  far: 1.5 right 2 down\n');
  // By then the advice is another one.
  expect(placeInStep(bookOf(text), shots[1]!.slot!, { right: 0, up: 0 })).toBeUndefined();
});

test('a fine mark is written to a tenth of the reading step, and none as none', () => {
  const book = bookOf(after(CENTRED.M1, 'marks: M2\nshots: {near: , far: }\n'));
  const [near, far] = panelView(book, {})!.shots;
  const text = changed(book.text, [
    ...placeMark(book, near!.slot!, { right: 1.43, up: -2, fine: true })!,
    ...placeMark(book, far!.slot!, 'none')!,
  ]);
  expect(text).toContain('shots: {near: 1.45 right 2 down, far: none}');
});

test('as found and as left of each limit, once something was shot twice', () => {
  const text = after('session: one\n', CENTRED.M1, OUTSIDE);
  expect(panelView(bookOf(text), {})!.visit).toEqual([]);
  const again = `${text}---\nadjust: M1\nturn: {A: out 1/4}\n---\nmarks: M2\nshots: {near: 0 right 0.5 up, far: 0 right 1 up}\n`;
  expect(panelView(bookOf(again), {})!.visit).toEqual([
    {
      name: 'M2 centre',
      found: expect.closeTo(1.95, 2),
      left: 0.5,
      words: { found: '3.9', left: '1.0', limit: '2 mm' },
    },
    {
      name: 'M2 spread',
      found: expect.closeTo(2.69, 2),
      left: expect.closeTo(1 / 3, 6),
      words: { found: '4.0', left: '0.5', limit: '1.5 mm' },
    },
  ]);
});
