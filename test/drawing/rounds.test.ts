/** The rounds of a station: values computed by hand from the marks, over sessions, and in the drawing. */
import { expect, test } from 'vitest';
import { toSvg } from '../../src/drawing/index.ts';
import { roundsFigure } from '../../src/language/index.ts';
import { CENTRED } from '../support/log.ts';
import { after, bookOf } from '../support/workbook.ts';
import { golden } from './golden.ts';

const LOOK = { width: 320, theme: 'light' } as const;
const FIRST = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';
/** The wrong way round: what was far out leaves the tape. */
const TURN = 'adjust: M1\nturn: {A: in 1/4, B: out 1/4}\n';
const SECOND = 'marks: M2\nshots: {near: 3 right 2 down, far: none}\n';
const LATER = 'session: autumn\ndate: 2026-09-01\n';
const THIRD = 'marks: M2\nshots: {near: 1 right 0 up, far: 1 left 0 up}\n';
const LOG = after(CENTRED.M1, FIRST, TURN, SECOND, LATER, THIRD);
const FIGURE = roundsFigure(bookOf(LOG), 'M2')!;

test('centre is the maximum distance of a mark from the centre, spread the maximum distance between two marks', () => {
  expect(
    FIGURE.rounds.map(({ session, round, centre, spread, missed }) => [
      session,
      round,
      centre?.value,
      spread?.value,
      missed,
    ]),
  ).toEqual([
    [0, 1, near(Math.hypot(6, 5.5)), near(Math.hypot(4.5, 3.5)), 0],
    [0, 2, undefined, undefined, 1],
    [1, 1, near(1), near(2), 0],
  ]);
  expect(FIGURE.limits).toEqual({ centre: 2, spread: 1.5 });
  expect(FIGURE.sessions.at(-1)).toEqual({ title: 'autumn', date: '2026-09-01' });
});

test('the last round equals the evaluation', () => {
  const [centre, spread] = bookOf(LOG)
    .evaluation()
    .stations.find(({ name }) => name === 'M2')!.requirements;
  expect(FIGURE.rounds.at(-1)).toMatchObject({
    centre: { value: centre!.value, u: centre!.u },
    spread: { value: spread!.value, u: spread!.u },
  });
});

test('points are drawn at their value on the scale beside them', () => {
  const svg = toSvg(FIGURE, LOOK);
  const ticks = [...svg.matchAll(/<text class="small" x="38" y="([\d.]+)" text-anchor="end">([\d.]+)<\/text>/g)].map(
    ([, y, value]) => ({ y: Number(y) - 4, value: Number(value) }),
  );
  const points = [...svg.matchAll(/<circle class="ink" cx="([\d.]+)" cy="([\d.]+)" r="4"/g)].map(([, x, y]) => ({
    x: Number(x),
    y: Number(y),
  }));
  // The centre's chart stands above that of the spread: its scale ends where the next begins at zero.
  const upper = ticks.slice(
    0,
    ticks.findIndex(({ value }, k) => k > 0 && value === 0),
  );
  const [naught, top] = [upper[0]!, upper.at(-1)!];
  const valueAt = (y: number) => naught.value + ((y - naught.y) / (top.y - naught.y)) * (top.value - naught.value);
  const centres = FIGURE.rounds.map(({ centre }) => centre?.value).filter((value) => value !== undefined);
  expect(points.slice(0, centres.length).map(({ y }) => valueAt(y))).toEqual(
    centres.map((value) => expect.closeTo(value, 0)),
  );
  expect(points.slice(0, centres.length).map(({ x }) => x)).toEqual(
    points
      .slice(0, centres.length)
      .map(({ x }) => x)
      .toSorted((one, other) => one - other),
  );
});

test('no such station, nothing shot', () => {
  expect(roundsFigure(bookOf(LOG), 'M9')).toBeUndefined();
  expect(roundsFigure(bookOf(LOG), 'lens')!.rounds).toEqual([]);
  expect(toSvg(roundsFigure(bookOf(LOG), 'lens')!, LOOK)).toContain('nothing was shot');
});

test('as it was drawn', () => golden('rounds', toSvg(FIGURE, LOOK)));

function near(value: number): number {
  return expect.closeTo(value, 6) as unknown as number;
}
