/**
 * Arithmetic with what the log says: results beside the lines, names that are known, and nothing that a hostile line
 * can do.
 */
import { expect, test } from 'vitest';
import { completionsAt, createGuide, hintsOf, hoverAt, namesIn, renaming } from '../../src/language/index.ts';
import { message } from '../../src/model/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { after, bookOf, readMarked } from '../support/workbook.ts';
import { CHAIN, HOSTILE_SUMS } from './hostile-sums.ts';

const ROUND = 'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n';
const results = (...cells: string[]) => {
  const text = after(...cells);
  return hintsOf(bookOf(text), 0, text.length, (kind) => kind === 'results').map(({ label }) => label);
};
const problems = (...cells: string[]) =>
  bookOf(after(...cells))
    .findings()
    .filter(({ code }) => /^(quantity|name)\./.test(code))
    .map((finding) => [finding.code, message(finding)]);

test('a station’s value in the log at that cell, with its uncertainty', () => {
  // 4.5 mm over 560 mm: 8.04 mrad to the right, by two marks with a quarter of a millimetre each.
  const [slope, there, ratio] = results(
    ROUND,
    'work: w\ntilt: M2.slope.right\nthere: tilt * (M2.far - M2.near)\nsame: tilt - tilt\n',
  ) as [string, string, string];
  expect(slope).toMatch(/^= 8\.04 ± 0\.\d\d mrad$/);
  expect(there).toMatch(/^= 4\.50 ± 0\.\d\d mm$/);
  expect(ratio).toBe('= 0 ± 0 mrad');
  const [before, later] = [
    results('work: w\nfar: M2.centre\n', ROUND),
    results(ROUND, 'adjust: M1\nturn: {A: in 1}\n', 'work: w\nfar: M2.centre\n'),
  ];
  expect(before).toEqual(['not known yet: M2 has not been shot']);
  expect(later[0]).toMatch(/^= 8\.14 ± 0\.\d\d mm$/);
});

test('how wide the beam is on a station', () => {
  const wide = MACHINE.replace('fires: left', 'fires: left\n  beam: {diameter: 6 mm, divergence: 3 mrad}');
  const text = [wide, LIMITS, 'work: w\nroom: M3.aperture - beam.diameter.M3\n'].join('---\n');
  const [{ label }] = hintsOf(bookOf(text), 0, text.length, (kind) => kind === 'results') as unknown as [
    { label: string },
  ];
  // 90 + 690 + 910 mm from the exit: √(6² + (0.003 × 1690)²), as no waist is known but at the exit.
  expect(label).toMatch(/^= 1[01]\.\d* mm$/);
  expect(Number(/[\d.]+/.exec(label)![0])).toBeCloseTo(18 - Math.hypot(6, 0.003 * 1690), 0);
  expect(results('work: w\na: beam.diameter.M3\n')).toEqual([
    'not known yet: the machine cell does not give the divergence of the beam',
  ]);
});

test('uncertainties go along, to first order', () => {
  const [, , sum, product, nothing] = results(
    'work: w\na: 3 mm ± 0.3 mm\nb: 4 mm ± 0.4 mm\nsum: a + b\nproduct: a * b\nnothing: a - a\n',
  );
  // √(0.3² + 0.4²), and √((4 × 0.3)² + (3 × 0.4)²).
  expect([sum, product, nothing]).toEqual(['= 7.00 ± 0.50 mm', '= 12.0 ± 1.7 (mm^2)', '= 0 ± 0 mm']);
});

/**
 * c u(x) with c the derivative where the inputs stand (JCGM 100:2008, 5.1.3): no half of a parabola, no tail of a
 * quotient.
 */
test.each([
  ['a * a', '= 9.00 ± 0.60 (mm^2)'],
  ['a * a * a', '= 27.0 ± 2.7 (mm^3)'],
  ['a / b', '= 0.750 ± 0.031'],
  ['sqrt(a * a)', '= 3.00 ± 0.10 mm'],
  ['sqrt(a * a) - a', '= 0 ± 0 mm'],
  ['a - a + b', '= 4.00 ± 0.10 mm'],
  ['-a + 2 * a', '= 3.00 ± 0.10 mm'],
  ['a * b ± 1 %', '= 12.00 ± 0.51 (mm^2)'],
  ['sqrt(a * a - 9 mm * 1 mm)', '= 0 mm, ± not known'],
  ['(a - 3 mm) * (b - 4 mm)', '= 0 (mm^2), ± not known'],
  ['(a - a) * (b - b)', '= 0 ± 0 (mm^2)'],
])('with 3 mm ± 0.1 mm and 4 mm ± 0.1 mm: %s', (expression, text) =>
  expect(results(`work: w\na: 3 mm ± 0.1 mm\nb: 4 mm ± 0.1 mm\nvalue: ${expression}\n`)[2]).toBe(text),
);

/** JCGM 100:2008, H.1: what a comparator adds to the standard's length (values from memory); and its digits (7.2.6). */
test('digits of the value follow its uncertainty', () => {
  expect(
    results(
      'work: w\nstandard: 50.000623 mm ± 0.000025 mm\nd: 0.000215 mm ± 0.0000097 mm\nl: standard + d\nleg: 1690.25 mm\nfrac: 1 1/8 in\nthird: 10 mm / 3\n',
    ),
  ).toEqual([
    '= 50.000623 ± 0.000025 mm',
    '= 0.0002150 ± 0.0000097 mm',
    '= 50.000838 ± 0.000027 mm',
    '= 1690.25 mm',
    '= 28.575 mm',
    '= 3.33333 mm',
  ]);
});

test('the ± of the machine cell is carried along, and stays one input however often it is used', () => {
  const unsure = MACHINE.replace('leg: 90 mm', 'leg: 90.25 mm ± 0.3 mm')
    .replace('far: 690 mm', 'far: 690 mm ± 4 mm')
    .replace('fires: left', 'fires: left\n  beam: {diameter: 6 mm ± 0.2 mm, divergence: 3 mrad}');
  const text = (...lines: string[]) => {
    const text = [unsure, LIMITS, `work: w\n${lines.join('\n')}\n`].join('---\n');
    return hintsOf(bookOf(text), 0, text.length, (kind) => kind === 'results').map(({ label }) => label);
  };
  expect(text('a: M1.leg', 'b: M1.leg + M1.leg', 'c: b - M1.leg - M1.leg', 'd: M2.far + M1.leg')).toEqual([
    '= 90.25 ± 0.30 mm',
    '= 180.50 ± 0.60 mm',
    '= 0 ± 0 mm',
    '= 780.3 ± 4.0 mm',
  ]);
  // D(z)² = D² + (θ z)²: of the width on M1 the exit's own counts D/D(z), and θ z is the same in what is taken off.
  const [wide, more] = text('wide: beam.diameter.M1', 'more: wide - beam.diameter');
  expect(wide).toBe(`= ${Math.hypot(6, 0.003 * 90.25).toFixed(2)} ± 0.20 mm`);
  expect(Number(/± ([\d.]+)/.exec(more!)![1])).toBeLessThan(0.002);
});

test('a value of too many inputs has an unknown uncertainty, and so have values that depend on it', () => {
  const lines = Array.from({ length: 70 }, (_, k) => `x${k}: 1 mm ± 1 mm`);
  const sum = (from: number, to: number) =>
    lines
      .slice(from, to)
      .map((_, k) => `x${from + k}`)
      .join(' + ');
  const text = results(
    `work: w\n${lines.join('\n')}\nhalf: ${sum(0, 35)}\nall: half + ${sum(35, 70)}\nmore: all + 1 mm\n`,
  );
  expect(text.slice(-3)).toEqual(['= 35.0 ± 5.9 mm', '= 70 mm, ± not known', '= 71 mm, ± not known']);
});

test.each([
  [
    '1 ft',
    'quantity.unit',
    '`ft` is not a unit here. Use one of: mm, cm, m, um, nm, in, deg, mrad, rad, arcmin, turn, flat, W, mW, kW, s, ms, min, h, %, degC, bar, l/min, V, mA.',
  ],
  [
    '100 W / (1 cm^2)',
    'quantity.expression',
    '`100 W / (1 cm^2)` cannot be computed: `^` is not supported; write the product, such as `2 mm * 2 mm`.',
  ],
  ['3 mm ; 2', 'quantity.unreadable', '`3 mm ; 2` is not a quantity.'],
])('the message about `%s` quotes whole words', (expression, code, words) =>
  expect(problems(`work: w\na: ${JSON.stringify(expression)}\n`)).toContainEqual([code, words]),
);

test('a missed tape gives no distance of the beam', () => {
  expect(results('marks: M2\nshots: {near: 0.5 right 0 up, far: none}\n', 'work: w\nfar: M2.centre\n')).toEqual([
    'not known yet: the marks on M2 do not give it',
  ]);
});

test('mistakes are found at their place, once, also where they wait for the log', () => {
  expect(problems(ROUND, 'work: w\na: M2.slope.right + 3 mm\nb: a * 2\n')).toEqual([
    ['quantity.dimension', expect.stringContaining('length')],
  ]);
  expect(problems(ROUND, 'work: w\na: M9.slope.right\n')[0]![0]).toBe('quantity.name');
  expect(problems(ROUND, 'work: w\na: M2.slope.rihgt\n')[0]![0]).toBe('quantity.name');
  expect(problems('work: w\na: M3.centre * 2\n')).toEqual([]);
  expect(problems('work: w\na: 1 / 0\n')[0]![0]).toBe('quantity.range');
});

test('names are completed, explained and renamed everywhere', () => {
  const { text, cursor } = readMarked(after(ROUND, 'work: w\na: 2 mm\ntilt: M2.sl$0\n'));
  const offered = completionsAt(bookOf(text), createGuide(), cursor).map(({ label }) => label);
  expect(offered).toEqual(
    expect.arrayContaining(['a', 'M2.slope.right', 'M2.centre', 'lens.focal', 'corner.A.right', 'sqrt']),
  );
  const hovered = readMarked(after(ROUND, 'work: w\ntilt: M2.slo$0pe.right * (M2.far - M2.near)\n'));
  expect(hoverAt(bookOf(hovered.text), createGuide(), hovered.cursor)!.text).toMatch(
    /`tilt` = 4\.5[^]*`M2\.slope\.right` = 8\.04 ± [\d.]+ mrad; slope of the beam[^]*`M2\.far` = 690 mm, from the machine cell/,
  );
  const book = bookOf(after(ROUND, 'work: w\ntilt: M2.slope.right * 2\nwide: beam.diameter.M2\n'));
  const use = namesIn(book, undefined, undefined, 'M2').find(({ role, name }) => role === 'station' && name === 'M2')!;
  const changes = renaming(book, use, 'second');
  const renamed = changes
    .toSorted((one, other) => other.start - one.start)
    .reduce((so, { start, end, text: to }) => so.slice(0, start) + to + so.slice(end), book.text);
  expect(renamed).toContain('tilt: second.slope.right * 2\nwide: beam.diameter.second');
});

test('a hostile line ends in a finding, or in a number, and touches nothing', () => {
  for (const line of HOSTILE_SUMS) {
    const book = bookOf(after(ROUND, `work: w\na: ${JSON.stringify(line)}\n`));
    const isWorked = book.workbook.entries.some(
      ({ entry }) => entry.kind === 'work' && Number.isFinite(entry.results['a']?.value),
    );
    const isLater = book.workbook.entries.some(({ entry }) => entry.kind === 'work' && entry.later?.includes('a'));
    expect(isWorked || isLater || book.findings().some(({ cell }) => cell === 3), line.slice(0, 60)).toBe(true);
  }
  expect(problems(`work: w\n${CHAIN}\n`)).toEqual([]);
  expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
});
