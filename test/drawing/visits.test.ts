/**
 * A station over the visits: what the marks say by hand, on the paper, and how far what is foretold lies from the
 * limit.
 */
import { describe, expect, test } from 'vitest';
import { THEMES, toSvg, type ThemeName } from '../../src/drawing/index.ts';
import { visitsFigure } from '../../src/language/index.ts';
import { daysBetween, type VisitsFigure } from '../../src/model/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';
import { golden } from './golden.ts';

const LOOK = { width: 320, theme: 'light' } as const;
const visit = (date: string | undefined, ...cells: string[]) => [
  `session: look\n${date === undefined ? '' : `date: ${date}\n`}`,
  CENTRED.M1,
  ...cells,
];
const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
const TURN = 'adjust: M1\nturn: {B: in 1/16}\n';
const figureOf = (...cells: string[]) => visitsFigure(bookOf(after(...cells)), 'M2')!;
/** Left alone twice; in the second visit it was turned between two rounds. */
const FIGURE = figureOf(
  ...visit('2026-01-01', m2('centre', '0.5 right 0 up')),
  ...visit('2026-03-02', m2('centre', '1.5 right 0 up'), TURN, m2('centre', '0.5 left 0.5 up')),
  ...visit('2026-05-01', m2('centre', '0.5 right 0.5 up')),
);

test('centre is the maximum distance of a mark from the centre, spread the maximum distance between two marks; as found is first, as left last', () => {
  expect(FIGURE.visits).toMatchObject([
    { session: 1, left: { date: '2026-01-01', centre: { value: 0.5 }, spread: { value: 0.5 } } },
    {
      session: 2,
      from: 0,
      found: { centre: { value: 1.5 }, spread: { value: 1.5 } },
      left: { centre: { value: Math.SQRT1_2 } },
    },
    { session: 3, from: 1, left: { centre: { value: Math.SQRT1_2 } } },
  ]);
  expect(FIGURE.limits).toEqual({ centre: 2, spread: 1.5 });
});

test.each([
  ['a turn before the first marks', [...visit('2026-03-02', TURN, m2('centre', '1 right 0 up'))]],
  ['something else between the visits', ['event: moved\n', ...visit('2026-03-02', m2('centre', '1 right 0 up'))]],
])('what moved in between is no drift: %s', (_, cells) => {
  const { visits } = figureOf(...visit('2026-01-01', m2('centre', 'centre')), ...cells);
  expect(visits).toHaveLength(2);
  expect(visits.at(-1)).not.toHaveProperty('from');
});

describe('in the drawing', () => {
  const svg = toSvg(FIGURE, LOOK);
  const numbers = (text: string) => [...text.matchAll(/-?\d+(?:\.\d+)?/g)].map(Number);
  const axis = [...svg.matchAll(/<text class="small" x="38" y="([\d.]+)" text-anchor="end">([\d.]+)<\/text>/g)].map(
    ([, y, value]) => ({ y: Number(y) - 4, value: Number(value) }),
  );
  // The centre's chart stands above that of the spread: its scale ends where the next begins at zero.
  const upper = axis.slice(
    0,
    axis.findIndex(({ value }, k) => k > 0 && value === 0),
  );
  const valueAt = (y: number) =>
    upper[0]!.value + ((y - upper[0]!.y) / (upper.at(-1)!.y - upper[0]!.y)) * (upper.at(-1)!.value - upper[0]!.value);
  const bars = [...svg.matchAll(/<path class="ink" d="(M[\d.]+ [\d.]+V[\d.]+M[^"]*h5[^"]*h5)"/g)]
    .map(([, d]) => numbers(d!))
    .map(([x, top, bottom]) => ({ x: x!, top: valueAt(top!), bottom: valueAt(bottom!) }));

  test('bars hold 95 % of what reading leaves, around the value', () => {
    const {
      visits: [one, two, three],
    } = FIGURE;
    const expected = [one!.left, two!.found!, two!.left, three!.left].map(({ centre }) => centre!);
    expect(bars.slice(0, 4).map(({ top }) => top)).toEqual(
      expected.map(({ value, u }) => expect.closeTo(value + 1.96 * u, 1)),
    );
    expect(bars.slice(0, 4).map(({ bottom }) => bottom)).toEqual(
      expected.map(({ value, u }) => expect.closeTo(Math.max(0, value - 1.96 * u), 1)),
    );
  });

  test('visits are placed by their days, and so is the end of the forecast', () => {
    const labelled = Object.fromEntries(
      [
        ...svg.matchAll(
          /<text class="small(?: name)?" x="([\d.]+)" y="[\d.]+" text-anchor="middle">(\d{4}-\d\d-\d\d)</g,
        ),
      ].map(([, x, day]) => [day!, Number(x)]),
    );
    const [first, last, end] = ['2026-01-01', '2026-05-01', FIGURE.ahead.at(-1)!.on];
    const perDay = (labelled[last]! - labelled[first]!) / daysBetween(first, last);
    expect(labelled[end]! - labelled[last]!).toBeCloseTo(perDay * daysBetween(last, end), 0);
    const [one, result, left, three] = bars.map(({ x }) => x);
    expect([one, three]).toEqual([expect.closeTo(labelled[first]!, 0), expect.closeTo(labelled[last]!, 0)]);
    // Found and left on one day stand on either side of it.
    expect((result! + left!) / 2 - one!).toBeCloseTo(perDay * daysBetween(first, '2026-03-02'), 0);
    expect(result).toBeLessThan(left!);
  });

  test('a diamond for each visit as found, a disc for each as left, in both charts', () => {
    expect(svg.match(/l[56] [56]l-[56] [56]l-[56] -[56]z/g)).toHaveLength(2 * 3 + 2);
    expect(svg.match(/<circle /g)).toHaveLength(2 * 3 + 2);
  });

  test('lines join only visits without a move in between', () => {
    const lines = (figure: VisitsFigure) =>
      toSvg(figure, LOOK).match(/<path class="ink" d="M[\d.]+ [\d.]+L[\d.]+ [\d.]+" stroke-width="1.2"/g) ?? [];
    expect(lines(FIGURE)).toHaveLength(4);
    expect(
      lines(
        figureOf(
          ...visit('2026-01-01', m2('centre', 'centre')),
          'event: moved\n',
          ...visit('2026-03-02', m2('centre', 'centre')),
        ),
      ),
    ).toHaveLength(0);
  });
});

describe('the forecast', () => {
  const ahead = (...far: string[]) =>
    figureOf(...far.flatMap((mark, k) => visit(`2026-0${2 * k + 1}-01`, m2('centre', mark))));
  const drifting = ahead('centre', '0.5 right 0 up', '1 right 0 up');

  test('ends on the day on which the probability of meeting the limit is too small, with its upper edge on the limit', () => {
    const end = drifting.ahead.at(-1)!;
    expect(end.on).toBe(drifting.unsure);
    expect(drifting.summary).toContain(`From ${end.on} on it is no longer within 2 mm with 90 % confidence`);
    // The day is a whole one, and an edge lies on a line between two distances that were looked at.
    expect(Math.abs(end.most - 2)).toBeLessThan(0.1);
    const [start] = drifting.ahead;
    expect(start).toMatchObject({ days: 0, on: '2026-05-01' });
    expect(start!.least).toBeLessThan(1);
    expect(start!.most).toBeGreaterThan(1);
    expect(start!.most - start!.least).toBeLessThan(end.most - end.least);
  });

  test.each([
    ['one interval', ahead('centre', '0.5 right 0 up'), 'No forecast: a trend needs two intervals'],
    [
      'no dates',
      figureOf(...['centre', '0.5 right 0 up', '1 right 0 up'].flatMap((mark) => visit(undefined, m2('centre', mark)))),
      'No forecast: the sessions have no dates',
    ],
    [
      'moved since',
      figureOf(
        ...['centre', '0.5 right 0 up', '1 right 0 up'].flatMap((mark, k) =>
          visit(`2026-0${2 * k + 1}-01`, m2('centre', mark)),
        ),
        TURN,
      ),
      'No forecast: something was moved after the last marks.',
    ],
  ])('nothing, and why: %s', (_, figure, summary) => {
    expect(figure.ahead).toEqual([]);
    expect(figure.summary).toContain(summary);
    const svg = toSvg(figure, LOOK);
    expect(svg).not.toContain('ahead:');
    expect(svg).toContain(summary.slice(0, 20));
  });
});

test('without dates visits follow one another by their numbers', () => {
  const svg = toSvg(
    figureOf(...['centre', '0.5 right 0 up'].flatMap((mark) => visit(undefined, m2('centre', mark)))),
    LOOK,
  );
  expect([...svg.matchAll(/text-anchor="middle">([^<]+)</g)].map(([, text]) => text)).toEqual(['1', '2']);
});

test('dates that run backwards are not drawn as if they ran on', () => {
  const svg = toSvg(
    figureOf(...visit('2026-05-01', m2('centre', 'centre')), ...visit('2026-01-01', m2('centre', 'centre'))),
    LOOK,
  );
  expect([...svg.matchAll(/text-anchor="middle">([^<]+)</g)].map(([, text]) => text)).toEqual(['1', '2']);
});

test('a tape that was missed', () => {
  const figure = figureOf(...visit('2026-01-01', m2('centre', 'none')));
  expect(figure.visits[0]!.left.missed).toBe(1);
  expect(toSvg(figure, LOOK)).toContain('tape missed');
});

test('no such station, nothing shot, no limits', () => {
  expect(visitsFigure(bookOf(after(...visit('2026-01-01'))), 'M9')).toBeUndefined();
  const nothing = visitsFigure(bookOf(after(...visit('2026-01-01'))), 'lens')!;
  expect(nothing.visits).toEqual([]);
  expect(toSvg(nothing, LOOK)).toContain('not shot in any visit');
});

test('as it was drawn', () => golden('visits', toSvg(FIGURE, LOOK)));

test.each(Object.keys(THEMES) as ThemeName[])('a picture of its own, %s: no address and no script', (theme) => {
  const svg = toSvg(FIGURE, { width: 300, theme });
  expect(svg).toContain(`--paper:${THEMES[theme].paper}`);
  expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|<script/);
});
