/** What a hover says. Copy three lines to add a case: the cursor is at `$0`, and each `# = ` is a part of the text. */
import { describe, expect, test } from 'vitest';
import { createGuide, hoverAt } from '../../src/language/index.ts';
import { LIMITS, MACHINE } from '../support/log.ts';
import { after, bookOf, readMarked } from '../support/workbook.ts';

const guide = createGuide();

function hover(marked: string) {
  const { text, cursor } = readMarked(after(marked));
  return hoverAt(bookOf(text), guide, cursor)?.text;
}

const CASES: readonly (readonly [what: string, cell: string, ...parts: string[]])[] = [
  [
    'a station’s name',
    'marks: M$02\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n',
    '![Tape on M2: out of limits',
    'data:image/svg+xml,',
    '**M2**: out of limits',
    'right is the machine’s left',
    'centre 8.1',
    'JCGM 106',
  ],
  [
    'a mark',
    'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 r$0ight 5.5 down}\n',
    'far from M1 (front): 6.0 right (machine left) 5.5 down',
    '`far` What the tape shows',
  ],
  ['a key', 'session: spring\nrea$0son: routine\n', '`reason` Why: routine, fault'],
  ['a word', 'care: M2\nfound: dus$0ty\n', 'One of `clean`, `dusty`'],
  [
    'a turn',
    'adjust: M1\nturn: {B: in 1/$04}\n',
    'should move the mark at M2 far (front) by',
    '`in` is clockwise: the tip advances',
  ],
  ['arithmetic', 'work: t\ndrift: 6.0 m$0m - 1.5 mm\n', '`drift` = 4.5 mm'],
  ['a finding', 'adjust: M$08\nlock: tight\n', '**name.unknown** Use a name from the machine cell'],
];

test.each(CASES)('%s', (_, cell, ...parts) => {
  const text = hover(cell);
  for (const part of parts) expect(text).toContain(part);
});

test('the width of the beam, at a station of a machine that describes its beam', () => {
  const machine = MACHINE.replace(
    '  fires: left',
    '  fires: left\n  beam: {diameter: 6 mm, divergence: 3 mrad, M2: 1.2}',
  );
  const { text, cursor } = readMarked(
    [machine, LIMITS, 'marks: M$02\nshots: {near: 0 right 1.0 up, far: 7.0 right 0 up}\n'].join('---\n'),
  );
  const shown = hoverAt(bookOf(text), guide, cursor)?.text;
  expect(shown).toContain('- gantry near M1 (rear): 6.3 mm wide; < 0.1 % lost, 1.0 ± 0.2 mm off centre');
  expect(shown).toMatch(
    /- gantry far from M1 \(front\): 7\.3 mm wide; \d\.\d ± \d\.\d % lost, 7\.0 ± 0\.2 mm off centre/,
  );
  expect(hover('marks: M$02\nshots: {near: centre, far: centre}\n')).not.toContain('Beam:');
});

test.each([
  ['{diameter: 6 mm, divergence: 3 mrad, M2: 1.2}', 'Waist 5.4 mm, 873 mm inside the tube'],
  ['{diameter: 6 mm}', 'Add the `divergence`'],
])('the beam of the tube, %s', (beam, expected) => {
  const { text, cursor } = readMarked(MACHINE.replace('  fires: left', `  fires: left\n  be$0am: ${beam}`));
  expect(hoverAt(bookOf(text), guide, cursor)?.text).toContain(expected);
});

test('what the lens makes of the beam, at the lens; and why its blur is not known', () => {
  const machine = MACHINE.replace(
    '  fires: left',
    '  fires: left\n  beam: {diameter: 6 mm ± 0.3 mm, divergence: 3 mrad, M2: 1.2}',
  );
  const lens = (text: string) => {
    const marked = readMarked(
      [text, LIMITS, 'marks: le$0ns\nshots: [{at: here, mark: 1 right 0 rear}]\n'].join('---\n'),
    );
    return hoverAt(bookOf(marked.text), guide, marked.cursor)?.text;
  };
  expect(lens(machine)).toMatch(
    /- Beam diameter on the lens: 6\.5 to 9\.5 ± 0\.\d mm\. Spot diameter by diffraction: 0\.\d+ to 0\.\d+ ± 0\.\d+ mm/,
  );
  expect(lens(machine)).toContain('- After the lens the beam, and with it the cut, leans');
  expect(lens(machine)).toContain('- The aberration of lens cannot be computed: its material is missing.');
  expect(lens(machine.replace('focal: 50.8 mm', 'focal: 50.8 mm, material: ZnSe'))).toMatch(
    /- The aberration of the lens adds a blur of up to 0\.\d+ ± 0\.\d+ mm/,
  );
});

test.each([
  [
    'with how sure that is',
    'power: 80 W ± 8 W',
    'beam: {diameter: 6 mm ± 0.3 mm}',
    /Optical density at 10\.6 µm of at least 3\.\d ± 0\.1 for 10 s/,
  ],
  [
    'exact figures are said to count as such',
    'power: 80 W',
    'beam: {diameter: 6 mm}',
    /Power and diameter are treated as exact/,
  ],
  [
    'and why it is not known',
    'power: 80 W',
    'holders: {exit: 100 mm, tail: 900 mm}',
    /The optical density of eyewear cannot be computed: the diameter of the beam is missing/,
  ],
])('how dark eyewear must be, at the power: %s', (_, power, beam, expected) => {
  const { text, cursor } = readMarked(
    MACHINE.replace('  fires: left', `  fires: left\n  ${power.replace('power', 'po$0wer')}\n  ${beam}`),
  );
  expect(hoverAt(bookOf(text), guide, cursor)?.text).toMatch(expected);
});

describe('no hover', () => {
  test.each(['session: spring\n$0\n---\nnote: a\n', '# only a com$0ment\nnote: a\n'])('%j', (cell) =>
    expect(hover(cell)).toBeUndefined(),
  );
});
