/** What stands beside the text. Copy three lines to add a case. */
import { expect, test } from 'vitest';
import { hintsOf } from '../../src/language/index.ts';
import { after, bookOf, lineOf, readMarked } from '../support/workbook.ts';

/** Every hint is expected, and every expectation met. */
function checkHints(marked: string): void {
  const { text, expected } = readMarked(marked);
  const result = new Map<number, string>();
  for (const { at, label } of hintsOf(bookOf(text), 0, text.length)) {
    const line = lineOf(text, at);
    result.set(line, result.has(line) ? `${result.get(line)} | ${label}` : label);
  }
  expect(Object.fromEntries(result)).toEqual(Object.fromEntries(expected));
}

test('a mark’s side is given in the machine’s words where they differ; the verdict comes first', () =>
  checkHints(
    after(`marks: M2
# = outside, < 1 % · centre 8.1 of 2 mm (far, front)
shots:
  near: 1.5 right 2.0 down
# = 2.5 mm, machine left
  far: 6.0 right 5.5 down
# = 8.1 mm, machine left
`),
  ));

test('a coordinate that was not read is not shown as centred', () =>
  checkHints(
    after(`marks: M2
# = not shot at every place
shots:
  near: 1.5 right
# = up or down not read
  far: none
# = missed the tape
`),
  ));

test('on upright legs there are only the machine’s words, and tapes on the bed have no middle', () =>
  checkHints(
    after(`marks: lens
# = not shot at every place
shots:
  - {at: here, mark: 1.5 right 2.0 front}
# = 2.5 mm
  - {at: here, height: 20 mm, mark: 1.5 right 2.0 front}
`),
  ));

test('a turn shows its predicted effect, and later the measured one', () => {
  checkHints(
    after(`marks: M2
# = outside, < 1 % · centre 8.1 of 2 mm (far, front)
shots:
  near: 1.5 right 2.0 down
# = 2.5 mm, machine left
  far: 6.0 right 5.5 down
# = 8.1 mm, machine left
---
adjust: M1
# = M2 far (front) moved 5.5 mm, predicted 5.6 mm, off by 0°
turn: {B: in 1/4}
---
marks: M2
# = outside, < 1 % · centre 5.5 of 2 mm (far, front)
shots:
  near: 0.5 right 2.0 down
# = 2.1 mm, machine left
  far: 0.5 right 5.5 down
# = 5.5 mm, machine left
---
adjust: M1
# = moves M2 far (front) 0.1 mm right (machine left) 3.9 mm up
turn: {A: out 1/4}
`),
  );
});

test('a turn without a visible effect is not shown as moving a mark to the centre', () =>
  checkHints(
    after(`marks: M2
# = within, > 99 % · spread 0.0 of 1.5 mm
shots: [{at: near, mark: centre}, {at: 410 mm, mark: centre}, {at: far, mark: centre}]
---
adjust: M1
# = should hardly move M2 far (front)
turn: {A: in 1/1000}
`),
  ));

test('the results of scratch arithmetic are shown beside it', () =>
  checkHints(
    after(`work: tilt
drift: 6.0 mm - 1.5 mm
# = = 4.5 mm
slope: drift / (M2.far - M2.near)
# = = 0.00803571
`),
  ));

test('a long name is cut beside the text, and whole in the tooltip', () => {
  const name = `the_second_mirror_${'on_the_gantry_'.repeat(4)}`;
  const text = after(
    `marks: M2\nshots: {near: 1.5 right 2 down, far: 6 right 5.5 down}\n---\nadjust: M1\nturn: {A: in 1/4}\n`,
  ).replaceAll('M2', name);
  const hints = hintsOf(bookOf(text), 0, text.length);
  expect(hints.filter(({ label }) => label.length >= 60)).toEqual([]);
  expect(hints.find(({ kind }) => kind === 'turns')!.tooltip).toContain(name);
});
