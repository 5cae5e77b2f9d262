/** Practice in the language: blanks are fired for, expectations written, advice closed and asked for. */
import { describe, expect, test } from 'vitest';
import {
  burnFigure,
  burnsAtEnd,
  closingSheet,
  comparedMarks,
  expectationOf,
  expectEdit,
  expressions,
  fixesAt,
  hintsOf,
  hoverAt,
  createGuide,
  outlineOf,
  panelView,
  practiceWorkbook,
  statusOf,
  threads,
  type Book,
} from '../../src/language/index.ts';
import { ASK_CELL, severity, type PanelView } from '../../src/model/index.ts';
import { bookOf, changed } from '../support/workbook.ts';

const tables = { threads, expressions };
const start = (level: number, seed = 12) => practiceWorkbook(tables, { seed, level });
const BLANKS = '---\nmarks: M2\nshots: {near: , far: }\n';
const READ = '---\nmarks: M2\nshots: {near: 0 right 1.5 up, far: 1.5 right 5 up}\n';

function closed(text: string): Book {
  const book = bookOf(text);
  book.closesAdvice = true;
  return book;
}

describe('a new workbook', () => {
  test.each([1, 2, 3, 4, 5])('of level %i has no errors but its blanks, and can be repeated', (level) => {
    for (const seed of [1, 12, 345]) {
      const text = start(level, seed);
      expect(start(level, seed)).toBe(text);
      expect(
        bookOf(text)
          .findings()
          .filter((one) => severity(one) === 'error'),
      ).toEqual([]);
    }
  });

  test('of level 1 shows an example that ends within, and then a machine that is not', () => {
    const text = start(1);
    const upTo = bookOf(text.slice(0, text.indexOf('---\nevent:')));
    expect(upTo.evaluation().verdict).toBe('within');
    expect(bookOf(text).evaluation().verdict).toBe('continue');
  });
});

describe('fire', () => {
  test('every form of blank is fired for: bare, by stop, in a list, repeated, on the bed', () => {
    const cells = [
      'marks: M1\nshots: \n',
      'marks: M2\nshots: {near: , far: }\n',
      'marks: M2\nshots:\n  near: \n  far: 1 right 2 up\n',
      'marks: M3\nshots:\n  - {at: near, with: {M2: far}, mark: }\n  - {at: far, mark: }\n',
      'marks: lens\nshots:\n  - {at: here, mark: }\n  - {at: here, height: 80 mm, mark: }\n',
    ];
    expect(cells.map((cell) => burnsAtEnd(bookOf(`${start(3)}---\n${cell}`)).length)).toEqual([1, 2, 1, 2, 2]);
  });

  test('a mark that is read and the same place blank burn at the same place', () => {
    const [blank, read] = [BLANKS, READ].map((cell) => bookOf(start(2) + cell));
    const cell = blank!.workbook.entries.at(-1)!.cell;
    expect(comparedMarks(read!, cell).map(({ came }) => came)).toEqual(
      burnsAtEnd(blank!).map(({ burn }) => !burn.none && { right: burn.right, up: burn.up }),
    );
  });

  test('a real machine burns nothing', () => {
    const real = start(2).replace(/^practice: .*\n/m, '');
    expect(burnsAtEnd(bookOf(real + BLANKS))).toEqual([]);
    expect(panelView(bookOf(real + BLANKS), {})!.practice).toBeUndefined();
  });

  test('nothing on the tape says where the mark is: no limit, no reading, no comparison before it is logged', () => {
    const book = bookOf(start(2) + BLANKS);
    const figure = burnFigure(book, burnsAtEnd(book)[0]!.place)!;
    expect(Object.keys(figure).sort()).toEqual(
      ['aperture', 'burnt', 'frame', 'kind', 'place', 'reach', 'station'].sort(),
    );
  });
});

describe('an expectation', () => {
  const [, far] = burnsAtEnd(bookOf(start(2) + BLANKS));

  test('is written into the cell, beside the ones that are there, and read back', () => {
    const book = bookOf(start(2) + BLANKS);
    const [near] = burnsAtEnd(book);
    const once = changed(book.text, expectEdit(book, near!.place, '1.0 left 2.0 up')!);
    expect(once).toContain('marks: M2\nx-expected: {near: 1.0 left 2.0 up}\nshots: {near: , far: }\n');
    const twice = changed(once, expectEdit(bookOf(once), far!.place, 'centre')!);
    expect(twice).toContain('x-expected: {near: 1 left 2 up, far: centre}\n');
    expect([...expectationOf(bookOf(twice), far!.place.cell).values()]).toEqual([
      { right: -1, up: 2 },
      { right: 0, up: 0 },
    ]);
  });

  test.each(['', 'nonsense', '1 left\n2 up', '{', '1 left, 2 up'])('%j is no mark and is not written', (words) => {
    const book = bookOf(start(2) + BLANKS);
    expect(expectEdit(book, far!.place, words)).toBeUndefined();
  });

  test('in a list it names the carriages, and a bare mark stays bare', () => {
    const list = bookOf(`${start(3)}---\nmarks: M3\nshots:\n  - {at: near, with: {M2: far}, mark: }\n`);
    expect(expectEdit(list, burnsAtEnd(list)[0]!.place, '1 left 2 up')![0]!.text).toBe(
      'x-expected: [{at: near, with: {M2: far}, mark: 1 left 2 up}]\n',
    );
    const bare = bookOf(`${start(2)}---\nmarks: M1\nshots: \n`);
    expect(expectEdit(bare, burnsAtEnd(bare)[0]!.place, '1 left 2 up')![0]!.text).toBe('x-expected: 1 left 2 up\n');
  });
});

describe('advice', () => {
  const done = `${start(2).replace(/\nopen:/, '\ndone:')}${READ}`;

  test('is closed until a note asks for it, and closed again by the next cell', () => {
    const [before, asked, after] = [
      done,
      `${done}---\n${ASK_CELL}`,
      `${done}---\n${ASK_CELL}---\nadjust: M1\nturn: {A: in 1/8}\n`,
    ];
    expect(closed(before).evaluation().steps).toEqual([]);
    expect(closed(asked!).evaluation().steps.length).toBeGreaterThan(0);
    expect(closed(after!).evaluation()).toMatchObject({ steps: [], expected: [], learnt: [] });
    expect(panelView(closed(after!), {})!.practice).toMatchObject({ asks: 1, isClosed: true });
    expect(statusOf(closed(before))).toMatchObject({ sentence: 'Your choice', isPractice: true, steps: [] });
    expect(statusOf(closed(asked!)).steps.length).toBeGreaterThan(0);
  });

  test('safety checks are no advice: they stay', () => {
    expect(
      closed(start(2))
        .evaluation()
        .steps.map(({ kind }) => kind),
    ).toEqual(['check']);
  });

  test('states, findings and the verdict stay as they are', () => {
    const [own, open] = [closed(done).evaluation(), bookOf(done).evaluation()];
    expect([own.verdict, own.stations, own.findings]).toEqual([open.verdict, open.stations, open.findings]);
  });

  test('neither the panel nor a hint predicts what a turn will do', () => {
    const turned = closed(`${done}---\nadjust: M1\nturn: {A: in 1/8}\n`);
    const tried = panelView(turned, { station: 'M2', turns: [{ part: 'M1', screw: 'A', turns: 0.25 }] })!;
    expect(tried).toMatchObject({ outlook: [], figure: { expected: [] } });
    expect(tried.mounts.flatMap(({ screws }) => screws).some(({ moves }) => moves)).toBe(false);
    expect(hintsOf(turned, 0, turned.text.length).filter(({ kind }) => kind === 'turns')).toEqual([]);
  });
});

/** Everything that an editor shows without a shot being fired, but for the comparison of marks that are logged. */
function shownOf(book: Book): string {
  const guide = createGuide();
  const { length } = book.text;
  const offsets = Array.from({ length: Math.ceil(length / 7) }, (_, k) => 7 * k);
  return JSON.stringify([
    book.findings(),
    book.evaluation(),
    statusOf(book),
    hintsOf(book, 0, length),
    outlineOf(book, true),
    fixesAt(book, 0, length),
    withoutComparison(panelView(book, {})!),
    withoutComparison(panelView(book, { station: 'M2', visits: true })!),
    offsets.map((at) => hoverAt(book, guide, at)),
  ]);
}

function withoutComparison({ practice, ...rest }: PanelView) {
  const { misread: _, compared: __, ...own } = practice!;
  expect(own.tape).toBeUndefined();
  return { ...rest, own };
}

test('what is hidden reaches no ordinary answer: machines that differ in their seed alone look the same', () => {
  const text = `${start(2, 734561)}---\nmarks: M1\nshots: centre\n---\nadjust: M1\nturn: {A: in 1/8}\n${BLANKS}`;
  const seeds = [734561, 734562, 734563].map((seed) => text.replace('seed: 734561', `seed: ${seed}`));
  const shown = seeds.map((own, k) => shownOf(closed(own)).replaceAll(String(734561 + k), 'SEED'));
  expect(shown[0]!.length).toBeGreaterThan(5000);
  expect(shown[1]).toBe(shown[0]);
  expect(shown[2]).toBe(shown[0]);
  const burns = seeds.map((own) => JSON.stringify(burnsAtEnd(bookOf(own)).map(({ burn }) => burn)));
  expect(new Set(burns).size).toBe(3);
});

test('the closing sheet: own way, the shortest one, asks, readings, and the costly move', () => {
  const wrong =
    '---\nadjust: M1\nturn: {A: out 1}\n---\nmarks: M2\nx-expected: {near: centre}\nshots: {near: 1 right 1 up, far: none}\n';
  const sheet = closingSheet(bookOf(`${start(2)}${READ}---\n${ASK_CELL}${wrong}`), tables)!;
  expect(sheet).toMatchObject({ seed: 12, level: 2, asks: 1, moves: 1, yours: { adjustments: 1, tapes: 4 } });
  expect(sheet.costly?.say).toBe('M1 A out 1 turn');
  expect(sheet.shortest.adjustments).toBeGreaterThan(0);
  expect(sheet.shortest.points.at(-1)!.worst).toBeLessThan(1.25);
  expect(sheet.medianMisread).toBeGreaterThan(0);
});
