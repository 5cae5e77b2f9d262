/**
 * The estimate: moves are linear, splitting them changes nothing, the order of unrelated marks does not matter, and a
 * batch solution agrees.
 */
import { describe, expect, test } from 'vitest';
import { runFilter } from '../../src/estimate/filter.ts';
import type { SegmentEvent } from '../../src/estimate/segment.ts';
import { propagate, priorDistribution, type Distribution } from '../../src/estimate/distribution.ts';
import { fold } from '../../src/estimate/fold.ts';
import { sensitivity } from '../../src/machine/sensitivity.ts';
import {
  covarianceBetween,
  diagonal,
  fromEntries,
  fromRows,
  leastSquares,
  multiply,
  varianceAt,
} from '../../src/statistics/index.ts';
import { CENTRED, LIMITS, MACHINE, reader } from '../support/log.ts';

const { M1 } = CENTRED;
const M2 = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';
const M2_AFTER = 'marks: M2\nshots: {near: 1.0 right 1.5 down, far: 0.5 right 4.0 down}\n';
const M3 =
  'marks: M3\nshots:\n  - {at: near, mark: 1 right 0 up}\n  - {at: far, with: {M2: far}, mark: 2 right 3 up}\n';
const BED =
  'marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: 7 right 40 front}\n  - {at: here, height: 150 mm, mark: 9 right 41 front}\n';

function segmentOf(...cells: string[]) {
  const { entries } = reader.read([MACHINE, LIMITS, ...cells].join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  });
  return fold(entries).segment!;
}

const distribution = (...cells: string[]): Distribution => runFilter(segmentOf(...cells)).distribution;

/** Largest difference of the means, in standard deviations of the first. */
function separation(one: Distribution, other: Distribution): number {
  return Math.max(
    ...one.values.map((value, k) => Math.abs(value - other.values[k]!) / Math.sqrt(varianceAt(one.covariance, k))),
  );
}

test('a turn split over two cells', () => {
  const once = distribution(M1, M2, 'adjust: M1\nturn: {B: in 1/4}\n', M2_AFTER);
  const twice = distribution(M1, M2, 'adjust: M1\nturn: {B: in 1/8}\n', 'adjust: M1\nturn: {B: in 1/8}\n', M2_AFTER);
  expect(separation(once, twice)).toBeLessThan(1e-6);
});

test('cells of different stations swapped', () => {
  expect(separation(distribution(M1, M2, M3), distribution(M2, M1, M3))).toBeLessThan(0.02);
  expect(separation(distribution(M1, M3, BED), distribution(M1, BED, M3))).toBeLessThan(0.02);
});

test('a screw with half the effect of its thread is estimated', () => {
  const cells = [
    M1,
    'marks: M2\nshots: {near: 0 right 0 up, far: 6 right 0 up}\n',
    'adjust: M1\nturn: {B: in 1/4}\n',
    'marks: M2\nshots: {near: 0 right 0 up, far: 3 right 0 up}\n',
  ];
  const segment = segmentOf(...cells);
  const { distribution: result, contradictions: failure } = runFilter(segment);
  const { system: of } = segment;
  const order = of.screws.findIndex(({ part, screw }) => part === 'M1' && screw === 'B');
  const { effect } = of.screws[order]!;
  const gain = of.unknowns.gain(order);
  const share =
    (result.values[gain]! * effect!.right + result.values[gain + 1]! * effect!.up) /
    (effect!.right ** 2 + effect!.up ** 2);
  expect(failure).toEqual([]);
  expect(share).toBeGreaterThan(0.45);
  expect(share).toBeLessThan(0.65);
});

test('a confirmed move larger than logged is a contradiction, and the marks are used', () => {
  const { distribution: result, contradictions: failure } = runFilter(
    segmentOf(
      M1,
      M2,
      M3,
      'adjust: M1\nturn: {B: in 1/16}\n',
      ...[1, 2].map(() => 'marks: M2\nshots: {near: 3 left 0 up, far: 9 left 8 up}\n'),
    ),
  );
  expect(failure).toMatchObject([{ station: 'M2' }]);
  const mark = sensitivity(result, { station: 1, carriages: { M2: 690 }, height: 0 })!;
  expect([mark.right, mark.up]).toEqual([expect.closeTo(-9, 0), expect.closeTo(8, 0)]);
});

test('the effect of a screw in an unknown place carries over to other mirrors in the same mount', () => {
  const unknown = MACHINE.replace(/ {6}A: .*\n.*\n.*\n/, '      A: {}\n      B: {}\n');
  const cells = [
    unknown,
    LIMITS,
    M1,
    'marks: M2\nshots: {near: 0 right 0 up, far: 0 right 0 up}\n',
    'adjust: M1\nturn: {B: in 1/4}\n',
    'marks: M2\nshots: {near: 1.2 left 0 up, far: 5.6 left 0 up}\n',
  ];
  const { entries } = reader.read(cells.join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  });
  const { system: of, values, covariance } = runFilter(fold(entries).segment!).distribution;
  const gains = (mirror: string, name: string) =>
    of.unknowns.gain(of.screws.findIndex(({ part, screw }) => part === mirror && screw === name));
  const [tried, next, other] = [gains('M1', 'B'), gains('M2', 'B'), gains('M2', 'A')];
  const u = (index: number) => Math.sqrt(varianceAt(covariance, index));
  expect(Math.abs(values[tried]!)).toBeGreaterThan(0.01);
  expect(values[next]! / values[tried]!).toBeGreaterThan(0.8);
  expect(u(next)).toBeGreaterThan(u(tried));
  expect(u(next)).toBeLessThan(u(other) / 2);
});

describe('a batch solution of all cells at once', () => {
  test.each([
    ['one station', [M1, M2]],
    ['with turns', [M1, M2, 'adjust: M1\nturn: {A: out 1/4, B: in 1/8}\n', M2_AFTER, M3]],
    ['with tapes on the bed and a tube that moved', [M1, M2, 'adjust: tube\nshift: 1 mm up\n', M3, BED]],
  ] as const)('%s', (_, cells) => {
    const segment = segmentOf(...cells);
    expect(separation(runFilter(segment).distribution, batch(segment))).toBeLessThan(0.02);
  });
});

/**
 * Gauss–Newton over the unknowns at the start and what every move added to them, all readings together through the
 * exact trace. The process noise of a move has the covariance that the move itself gives: one error of a turn tilts a
 * mirror and pushes it, so it is written as independent standard errors times a root of that covariance.
 */
function batch(segment: ReturnType<typeof segmentOf>): Distribution {
  const steps: SegmentEvent[] = [];
  for (let one = segment.last; one; one = one.before) steps.unshift(one);
  const start = priorDistribution(segment.system);
  const size = start.values.length;
  const moves = steps.filter((step) => 'move' in step);
  const roots = noises(start, moves).map(rootOf);
  let unknown = new Float64Array(size * (1 + moves.length));
  unknown.set(start.values);
  for (let round = 0; round < 6; round++) {
    const rows: Float64Array[] = [];
    const right: number[] = [];
    const put = (row: Float64Array, value: number) => {
      rows.push(row);
      right.push(value);
    };
    for (let k = 0; k < unknown.length; k++) {
      const u = k < size ? Math.sqrt(varianceAt(start.covariance, k)) : 1;
      const row = new Float64Array(unknown.length);
      row[k] = 1 / u;
      put(row, k < size ? start.values[k]! / u : 0);
    }
    // A straight path through time: x after a move is F·x + the intended change + the process noise.
    let jacobian = fromRows(
      Array.from({ length: size }, (_, k) =>
        Float64Array.from({ length: unknown.length }, (_, c) => (c === k ? 1 : 0)),
      ),
    );
    let here: Distribution = { ...start, values: unknown.slice(0, size) };
    let moved = 0;
    for (const step of steps) {
      if ('move' in step) {
        moved++;
        jacobian = multiply(transition(here, step.move), jacobian);
        roots[moved - 1]!.forEach((column, c) =>
          column.forEach((entry, k) => {
            jacobian.data[k * unknown.length + moved * size + c]! += entry;
          }),
        );
        here = withError(propagate(here, step.move), moved);
        continue;
      }
      const below = step.readings.filter(({ height }) => height > 0);
      const place = Object.fromEntries(
        (['right', 'up'] as const).map((part) => [
          part,
          below.reduce((sum, reading) => sum + reading[part]! - sensitivity(here, reading)![part], 0) /
            Math.max(1, below.length),
        ]),
      );
      const mean =
        below.length === 0
          ? undefined
          : (['byRight', 'byUp'] as const).map((by) =>
              below
                .map((reading) => sensitivity(here, reading)![by])
                .reduce((sum, row) => sum.map((one, k) => one + row[k]! / below.length), new Float64Array(size)),
            );
      for (const reading of step.readings) {
        const traced = sensitivity(here, reading)!;
        (['right', 'up'] as const).forEach((part, axis) => {
          const slopes = axis === 0 ? traced.byRight : traced.byUp;
          // The tape on the bed lies where the marks on it agree best: take that out of reading and slopes alike.
          const own = reading.height > 0 ? slopes.map((slope, k) => slope - mean![axis]![k]!) : slopes;
          const off = reading[part]! - traced[part] - (reading.height > 0 ? place[part]! : 0);
          const row = multiply(fromRows([own]), jacobian).data.map((one) => one / reading.u);
          put(row, off / reading.u + row.reduce((sum, one, k) => sum + one * unknown[k]!, 0));
        });
      }
    }
    unknown = leastSquares(fromRows(rows), right).coefficients as Float64Array<ArrayBuffer>;
  }
  let end: Distribution = { ...start, values: unknown.slice(0, size) };
  moves.forEach((step, k) => {
    if (!('move' in step)) return;
    end = withError(propagate(end, step.move), k + 1);
  });
  return end;

  function withError(next: Distribution, move: number): Distribution {
    const values = next.values.slice();
    roots[move - 1]!.forEach((column, c) =>
      column.forEach((entry, k) => {
        values[k]! += entry * unknown[move * size + c]!;
      }),
    );
    return { ...next, values };
  }

  /** Covariance of the process noise of each move, as the filter has it at that time. */
  function noises(from: Distribution, some: readonly SegmentEvent[]) {
    let distribution = from;
    return some.map((step) => {
      if (!('move' in step)) return distribution.covariance;
      const none = { ...distribution, covariance: diagonal(new Float64Array(size)) };
      distribution = propagate(distribution, step.move);
      return propagate(none, step.move).covariance;
    });
  }
}

/**
 * Columns whose outer products add up to a covariance, which may be singular (Cholesky's, the largest variance first).
 */
function rootOf(covariance: Distribution['covariance']): Float64Array[] {
  const size = covariance.length;
  const left = fromEntries(size, size, (i, k) => covarianceBetween(covariance, i, k)).data;
  const columns: Float64Array[] = [];
  while (columns.length < size) {
    const pivot = Array.from({ length: size }, (_, k) => k).reduce((most, k) =>
      left[k * (size + 1)]! > left[most * (size + 1)]! ? k : most,
    );
    const variance = left[pivot * (size + 1)]!;
    if (variance < 1e-18) break;
    const column = Float64Array.from({ length: size }, (_, k) => left[k * size + pivot]! / Math.sqrt(variance));
    for (let i = 0; i < size; i++) for (let k = 0; k < size; k++) left[i * size + k]! -= column[i]! * column[k]!;
    columns.push(column);
  }
  return columns;
}

function transition(at: Distribution, move: Parameters<typeof propagate>[1]) {
  const base = propagate(at, move).values;
  const columns = at.values.map((_, k) => k);
  return fromRows(
    Array.from(base, (_, row) =>
      Float64Array.from(columns, (column) => {
        const step = 1e-3;
        const values = at.values.map((value, k) => (k === column ? value + step : value));
        return (propagate({ ...at, values }, move).values[row]! - base[row]!) / step;
      }),
    ),
  );
}
