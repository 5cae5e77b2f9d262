/** Marks that grow along the path: by what the beam spreads, and by more. */
import { describe, expect, test } from 'vitest';
import { growthsIn } from '../../src/light/index.ts';
import { bookOf } from '../support/workbook.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { entries } from '../support/entries.ts';

/** 5 mm at the exit and 3 mrad: √(25 + (0.003 · 220)²) = 5.04 mm at M2 near, 5.52 mm far, so 5 mm become 5.47 mm. */
const BEAM = MACHINE.replace('fires: left', 'beam: {diameter: 5 mm, divergence: 3 mrad}\n  fires: left');
const M2 = (near: string, far: string, more = '') =>
  `marks: M2\nshots: {near: 0 right 0 up${near}, far: 0 right 0 up${far}}\n${more}`;
const M1 = (size: string, more = '') => `marks: M1\nshots: 0 right 0 up${size}\n${more}`;
const PULSE = 'pulse: {power: 15 %, time: 100 ms}\n';
const OTHER = 'pulse: {power: 20 %, time: 100 ms}\n';

const growths = (...cells: string[]) =>
  growthsIn(entries(BEAM, LIMITS, ...cells)).map(
    ({ near, far, expected }) => `${near.station} ${near.size} > ${far.station} ${far.size} not ${expected.toFixed(1)}`,
  );

describe('within one cell', () => {
  test.each([
    ['as much as the beam', M2(' size 5 mm', ' size 5.5 mm'), []],
    ['a little more, as burns differ', M2(' size 5 mm', ' size 6.5 mm'), []],
    ['less', M2(' size 6 mm', ' size 4 mm'), []],
    ['by far more', M2(' size 5 mm', ' size 9 mm'), ['M2 5 > M2 9 not 5.5']],
    ['small burns of a weak pulse', M2(' size 2 mm', ' size 5 mm'), ['M2 2 > M2 5 not 2.2']],
    ['one size alone', M2('', ' size 9 mm'), []],
  ])('%s', (_, cell, expected) => expect(growths(cell)).toEqual(expected));

  test('repeated shots count with their mean', () => {
    expect(
      growths(
        'marks: M2\nshots: {near: [0 right 0 up size 5 mm, 0 right 0 up size 5 mm], far: [0 right 0 up size 5 mm, 0 right 0 up size 9 mm]}\n',
      ),
    ).toEqual([]);
  });

  test('a coarse reading widens the tolerance', () => {
    const coarse = LIMITS.replace('resolution: 0.5 mm', 'resolution: 3 mm');
    expect(growths(M2(' size 3 mm', ' size 6 mm'))).toHaveLength(1);
    expect(growths(coarse, M2(' size 3 mm', ' size 6 mm'))).toEqual([]);
  });
});

describe('within a visit', () => {
  test('only marks of the same logged pulse are compared', () => {
    expect(growths(M1(' size 4 mm', PULSE), M2('', ' size 9 mm', PULSE))).toEqual(['M1 4 > M2 9 not 4.4']);
    expect(growths(M1(' size 4 mm', PULSE), M2('', ' size 9 mm', OTHER))).toEqual([]);
    expect(growths(M1(' size 4 mm'), M2('', ' size 9 mm'))).toEqual([]);
    expect(growths(M1(' size 4 mm', PULSE), 'session: another\n', M2('', ' size 9 mm', PULSE))).toEqual([]);
  });

  test('in either order', () => {
    expect(growths(M2('', ' size 9 mm', PULSE), M1(' size 4 mm', PULSE))).toEqual(['M1 4 > M2 9 not 4.4']);
  });
});

test('no finding if the beam is unknown, below the lens, or after it', () => {
  expect(growthsIn(entries(MACHINE, LIMITS, M2(' size 5 mm', ' size 9 mm')))).toEqual([]);
  expect(
    growths(
      'marks: lens\nshots:\n  - {mark: 0 right 0 rear size 3 mm}\n  - {height: 150 mm, mark: 0 right 0 rear size 9 mm}\n',
    ),
  ).toEqual([]);
  const nozzle = BEAM.replace('mounts:', '  nozzle: {leg: 50 mm, aperture: 20 mm}\nmounts:');
  expect(
    growthsIn(
      entries(
        nozzle,
        LIMITS,
        `marks: lens\nshots: 0 right 0 rear size 3 mm\n${PULSE}`,
        `marks: nozzle\nshots: 0 right 0 rear size 9 mm\n${PULSE}`,
      ),
    ),
  ).toEqual([]);
});

test('the finding is at the later mark, with both places', () => {
  const said = (...cells: string[]) =>
    bookOf([BEAM, LIMITS, ...cells].join('---\n'))
      .findings()
      .filter(({ code }) => code === 'mark.growth')
      .map(({ cell, facts }) => [cell, facts['far'], facts['near'], facts['expected']]);
  expect(said(M2(' size 5 mm', ' size 9 mm'))).toEqual([[2, 'M2 far (front)', 'M2 near (rear)', '5.5 mm']]);
  expect(said(M2('', ' size 9 mm', PULSE), M1(' size 4 mm', PULSE))).toEqual([[3, 'M2 far (front)', 'M1', '4.4 mm']]);
});
