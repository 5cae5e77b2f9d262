/** What a target must show; and the same pictures as before (`UPDATE=1` redraws them, to be looked at). */
import { expect, test } from 'vitest';
import { fitted, tapeScale, targetInWords, toSvg, zoomed } from '../../src/drawing/index.ts';
import { roundsFigure, targetFigure } from '../../src/language/index.ts';
import type { TargetFigure } from '../../src/model/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';
import { golden } from './golden.ts';

const BOOK = bookOf(
  after(
    CENTRED.M1,
    'marks: M2\nshots: {near: 1.5 right 0.5 up, far: 9 right 3 down}\n',
    'adjust: M1\nturn: {A: in 1/8}\n',
    'marks: M2\nshots: {near: 1.5 right 0 up, far: none}\n',
  ),
);
const FIGURE = targetFigure(BOOK, 'M2')!;
const SHEET = { width: 320, theme: 'light' } as const;

test('every round of the session is drawn, and each mark has its place in the text', () => {
  expect(FIGURE.marks.map(({ round, age, right, up }) => ({ round, age, right, up }))).toEqual([
    { round: 1, age: 'earlier', right: 1.5, up: 0.5 },
    { round: 1, age: 'earlier', right: 9, up: -3 },
    { round: 2, age: 'fresh', right: 1.5, up: 0 },
  ]);
  for (const { cell, path } of [...FIGURE.marks, ...FIGURE.missed]) {
    const { entry } = BOOK.workbook.entries.find((one) => one.cell === cell)!;
    const { start, end } = entry.spans[path]!;
    expect(BOOK.text.slice(BOOK.split.cells[cell]!.start + start, BOOK.split.cells[cell]!.start + end)).toMatch(
      /right|none/,
    );
  }
  expect(FIGURE.missed.map(({ place }) => FIGURE.places[place]!.full)).toEqual(['gantry far from M1 (front)']);
});

test('a round before is shown as it was then, with nothing of what came after', () => {
  const first = targetFigure(BOOK, 'M2', { round: 1 })!;
  expect([first.round, first.rounds, first.missed, first.expected]).toEqual([1, 2, [], []]);
  expect(first.marks.map(({ right, up }) => [right, up])).toEqual([
    [1.5, 0.5],
    [9, -3],
  ]);
});

test('of a session with many rounds the last are drawn, each with its own number', () => {
  const rounds = Array.from({ length: 40 }, (_, k) => [
    `marks: M2\nshots: {near: ${k % 7} right 0 up}\n`,
    'adjust: M1\nturn: {A: in 1/8}\n',
  ]).flat();
  const book = bookOf(after('session: earlier\n', CENTRED.M2, 'session: today\n', ...rounds));
  const { marks, ...all } = targetFigure(book, 'M2')!;
  expect([all.first, all.round, all.rounds]).toEqual([17, 40, 40]);
  expect(marks.map(({ round }) => round)).toEqual(Array.from({ length: 24 }, (_, k) => 17 + k));
  expect(targetFigure(book, 'M2', { round: 20 })).toMatchObject({ round: 20, rounds: 40 });
  expect(targetFigure(book, 'M2', { round: 3 })).toMatchObject({ round: 40 });
  expect(toSvg(targetFigure(book, 'M2')!, SHEET)).not.toContain('as found');
  expect(roundsFigure(book, 'M2')!.rounds.map(({ round }) => round)).toEqual(
    Array.from({ length: 12 }, (_, k) => 29 + k),
  );
});

test('a drawn mark is as far from the centre as on the tape, in both views', () => {
  for (const behind of [false, true]) {
    const scale = tapeScale(fitted(FIGURE), 320, behind);
    const { x, y } = scale.at({ right: 1.5, up: -2 });
    expect((x - scale.centre.x) / scale.per).toBeCloseTo(behind ? -1.5 : 1.5, 9);
    expect((y - scale.centre.y) / scale.per).toBeCloseTo(2, 9);
  }
});

test('a mark far outside stays in the picture, in its direction', () => {
  const far = changed({ marks: [{ ...FIGURE.marks[0]!, age: 'fresh', right: 3e5, up: -4e5 }] });
  const scale = tapeScale(fitted(far), 320, false);
  const { x, y } = scale.at(far.marks[0]!);
  expect([x, y].every((at) => at > 0 && at < 320)).toBe(true);
  expect(y).toBeGreaterThan(305);
  expect((y - scale.centre.y) / (x - scale.centre.x)).toBeCloseTo(4 / 3, 9);
});

test('zooming leaves the point under the pointer where it is, from 2 to 40 mm across', () => {
  const fit = fitted(FIGURE);
  const about = { right: 1.5, up: -2 };
  for (const behind of [false, true])
    for (const factor of [0.1, 0.8, 1.25, 50]) {
      const window = zoomed(fit, factor, about, fit);
      expect(window.across).toBeGreaterThanOrEqual(2);
      expect(window.across).toBeLessThanOrEqual(40);
      const [before, after] = [fit, window].map((one) => tapeScale(one, 320, behind).beyond(about));
      expect(after!.x).toBeCloseTo(before!.x, 6);
      expect(after!.y).toBeCloseTo(before!.y, 6);
    }
});

test('two tapes in one window have the same pixels a millimetre', () => {
  const near = changed({ marks: [{ ...FIGURE.marks[0]!, age: 'fresh', right: 0.5, up: 0 }], expected: [] });
  const window = fitted(near, FIGURE);
  const limits = [near, FIGURE].map(
    (figure) => /class="ink limit"[^>]* r="([\d.]+)"/.exec(toSvg(figure, { ...SHEET, window }))![1],
  );
  expect(limits[0]).toBe(limits[1]);
  expect(fitted(near).across).toBeLessThan(fitted(FIGURE).across);
});

test('the next marks are drawn where the evaluation expects them', () => {
  const { expected } = BOOK.evaluation();
  const { expected: drawn, places } = targetFigure(BOOK, expected[0]!.station)!;
  expect(drawn.map(({ right, up, ellipse, place }) => ({ at: places[place]!.brief, right, up, ellipse }))).toEqual(
    expected.map(({ at, right, up, ellipse }) => ({
      at: typeof at === 'number' ? `at ${at} mm` : `${at} (front)`,
      right,
      up,
      ellipse,
    })),
  );
});

test('places differ by letter and shape, not by colour alone; stale marks are hollow', () => {
  const shapes = (svg: string) =>
    new Set([...svg.matchAll(/<path d="(M[^"]*z)" style="fill:var\(--s/g)].map(([, shape]) => shape));
  const svg = toSvg(targetFigure(BOOK, 'M2', { round: 1 })!, SHEET);
  expect(shapes(svg).size).toBe(2);
  expect(svg).toMatch(/>N<\/text>/);
  expect(svg).toMatch(/>F<\/text>/);
  const stale = targetFigure(bookOf(after(CENTRED.M1, CENTRED.M2, 'event: bumped\n')), 'M2')!;
  expect(stale.marks.every(({ age }) => age === 'stale')).toBe(true);
  expect(toSvg(stale, SHEET)).toContain('stale: something moved since');
});

const ONE_WAY = [
  bookOf(after(CENTRED.M1, 'marks: M2\nshots: {near: 1.5 right, far: 2 down}\n')),
  bookOf(
    after(
      CENTRED.M1,
      CENTRED.M2,
      CENTRED.M3,
      'marks: lens\nshots:\n  - {at: here, mark: 1 front}\n  - {at: here, with: {M2: far, M3: far}, mark: 1 left 2 front}\n',
    ),
  ),
] as const;

test('a mark with one coordinate is drawn as a line, and the missing coordinate is named', () => {
  const [m2, lens] = [targetFigure(ONE_WAY[0], 'M2')!, targetFigure(ONE_WAY[1], 'lens')!];
  expect([...m2.halves, ...lens.halves].map(({ read, value, age }) => ({ read, value, age }))).toEqual([
    { read: 'right', value: 1.5, age: 'fresh' },
    { read: 'up', value: -2, age: 'fresh' },
    { read: 'up', value: -1, age: 'fresh' },
  ]);
  expect([m2.marks, lens.marks.map(({ right, up }) => [right, up])]).toEqual([[], [[-1, -2]]]);
  expect(targetInWords(m2)).toContain(
    'gantry near M1 (rear): 1.5 right (machine left) mm, up or down not read; gantry far from M1 (front): 2 down mm, left or right not read.',
  );
  expect(m2.words).toBe('incomplete, not shot at every place');
  expect(targetInWords(lens)).toContain('1 front mm, left or right not read');
  for (const behind of [false, true]) {
    const scale = tapeScale(fitted(m2), SHEET.width - 20, behind);
    const [across, upward] = [
      ...toSvg(m2, { ...SHEET, behind }).matchAll(/<path class="half" d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"/g),
    ].map((match) => match.slice(1).map(Number));
    expect((across![0]! - scale.centre.x) / scale.per).toBeCloseTo(behind ? -1.5 : 1.5, 1);
    expect(across![2]).toBe(across![0]);
    expect((upward![1]! - scale.centre.y) / scale.per).toBeCloseTo(2, 1);
    expect(upward![3]).toBe(upward![1]);
  }
});

test('all that is drawn on the field is clipped by it, and the names of its sides stand outside', () => {
  const far = changed({
    beam: 30,
    expected: [{ place: 0, right: 10, up: 0, ellipse: { major: 60, minor: 20, angle: 0.3 } }],
  });
  const svg = toSvg(far, SHEET);
  const field = /<svg x="0" y="18" width="300" height="300" overflow="hidden">(.*?)<\/svg>/.exec(svg)![1]!;
  for (const part of ['<ellipse', 'fill-opacity="0.07"', 'class="cut"', 'class="sign"']) {
    expect(field).toContain(part);
    expect(svg.replace(field, '').split('translate(7 -4)')[0]).not.toContain(part);
  }
  expect(field).not.toMatch(/[▴▾◂▸]/);
});

test('a beam that the aperture clips is hatched where it is clipped, and nowhere else', () => {
  const aperture = FIGURE.aperture / 2;
  const cut = (right: number) => {
    const figure = changed({ beam: 8, marks: [{ ...FIGURE.marks[0]!, age: 'fresh', right, up: 0 }] });
    const scale = tapeScale(fitted(figure), SHEET.width - 20, false);
    const drawn = /class="cut" d="([^"]*)"/.exec(toSvg(figure, SHEET))?.[1] ?? '';
    const points = [...drawn.matchAll(/([\d.]+),([\d.]+)/g)].map(([, x, y]) =>
      scale.from({ x: Number(x), y: Number(y) }),
    );
    for (const point of points) {
      expect(Math.hypot(point.right, point.up)).toBeGreaterThan(aperture - 0.05);
      expect(Math.hypot(point.right - right, point.up)).toBeLessThan(4.05);
    }
    return points.length;
  };
  expect([cut(0), cut(5.9)]).toEqual([0, 0]);
  expect(cut(7)).toBeGreaterThan(4);
  expect(cut(9)).toBeGreaterThan(cut(7));
});

test('the description has the same content', () => {
  expect(targetInWords(FIGURE)).toMatch(
    /^Tape on M2: out of limits \(probability within < 1 %\)\. The aperture is 20 mm wide; marks are allowed 2 mm from its centre\. Round 2 of 2\. gantry near M1 \(rear\): 1\.5 right \(machine left\) mm\. gantry far from M1 \(front\): no mark, the beam missed the tape\./,
  );
});

test('nothing of the user’s gets out of its text', () => {
  const svg = toSvg(
    changed({
      station: '<script>',
      places: [
        { brief: '"><x', full: '&<', name: '<i>' },
        { brief: 'b', full: 'b', name: 'b' },
      ],
    }),
    SHEET,
  );
  expect(svg).not.toContain('<script>');
  expect(svg).not.toContain('"><x');
});

test.each([
  ['two rounds, one missed', FIGURE, false],
  ['two rounds, from behind', FIGURE, true],
  ['as found', targetFigure(BOOK, 'M2', { round: 1 })!, false],
  [
    'a lens, in the machine’s words',
    targetFigure(bookOf(after(CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens)), 'lens')!,
    false,
  ],
  ['read one way', targetFigure(ONE_WAY[0], 'M2')!, false],
  ['read one way, from behind', targetFigure(ONE_WAY[0], 'M2')!, true],
  ['a lens read one way', targetFigure(ONE_WAY[1], 'lens')!, false],
  ['nothing shot', targetFigure(bookOf(after()), 'M3')!, false],
] as const)('%s: the picture is as it was', (name, figure, behind) =>
  golden(name, toSvg(figure, { ...SHEET, behind })),
);

function changed(part: Partial<TargetFigure>): TargetFigure {
  return { ...FIGURE, ...part };
}
