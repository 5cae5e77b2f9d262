/** The text of `next`. */
import { afterAll, describe, expect, test } from 'vitest';
import { nextJson } from '../../src/cli/json.ts';
import { evaluationText, nextText } from '../../src/cli/next-text.ts';
import { cautionsFor } from '../../src/language/index.ts';
import type { Evaluation, Learnt } from '../../src/model/index.ts';
import { CENTRED, evaluated, LIMITS, MACHINE } from '../support/log.ts';
import { nextAnswer } from './answers.ts';
import { LOGS } from './logs.ts';
import { after, bookOf } from '../support/workbook.ts';
import { folder, typed } from './terminal.ts';

const place = folder();
afterAll(() => place.remove());

/** What `next` prints, without line ends and indents. */
function nextOutput(text: string): string {
  return typed('next', place.file('said.alignbook.yaml', text)).out.replaceAll(/\s+/g, ' ');
}

/** The text about an evaluation that no workbook leads to. */
function textOf(evaluation: Evaluation): string {
  const screen = { paint: (_: unknown, text: string) => text, columns: 80 };
  return evaluationText({ file: 'x', evaluation, findings: [], screen }, (steps) => cautionsFor(steps));
}

describe('a place is named by its carriages, not by the elements that ride on them', () => {
  test.each([
    ['a mark of one carriage', 'a screw in', 'mark gantry far from M1 (front): 2.8 right'],
    ['a mark of two carriages', 'a second corner', 'mark gantry near M1 (rear), head near M2 (left): centred'],
    [
      'a tape that no carriage moves',
      'a screw in',
      'M1 within limits (probability within > 99 %) Beam runs left; looking along it, right is the machine’s rear. mark centred',
    ],
    ['a tape on the bed', 'out of plumb', 'mark gantry near M1 (rear), head near M2 (left): 20 mm below'],
    ['the tilt of the beam below the lens', 'out of plumb', / tilt \d+\.\d (left|right|front|rear)/],
    ['where a limit is taken most', 'a screw in', '(gantry far from M1, front), limit 2 mm'],
    ['what is wrong', 'a screw in', 'the mark is 2.8 mm from the centre (gantry far from M1, front)'],
    ['a tape that was missed', 'a leg in millimetres', 'The beam misses the tape on M2 (gantry far from M1, front).'],
    ['what to expect', 'a screw in', 'expect M2, gantry near M1 (rear): '],
    ['what to expect at a leg in millimetres', 'a leg in millimetres', /expect M2, gantry at \d+ mm: /],
    [
      'what to expect at a corner',
      'the lens at two corners',
      'expect lens, gantry near M1 (rear), head near M2 (left): ',
    ],
    [
      'a carriage without a name: what rides on it',
      'carriages without a name',
      'mark M2 far from M1 (front): 2.8 right',
    ],
  ] as const)('%s', (_, name, expected) => {
    expect(nextOutput(LOGS[name]!)).toMatch(
      typeof expected === 'string' ? new RegExp(expected.replaceAll(/[.()]/g, '\\$&')) : expected,
    );
  });
});

test('a plumb without a tape on the bed since the turn is printed as predicted', () => {
  const read = nextOutput(LOGS['out of plumb']!);
  expect(read).toMatch(/plumb \d+\.\d ± \d+\.\d mrad, limit/);
  const turned = nextOutput(
    [
      LOGS['out of plumb']!.replace('10 right', '7.5 right'),
      'adjust: M2\nturn: {A: in 1/16}\n',
      CENTRED.M3,
      CENTRED.lens,
    ].join('---\n'),
  );
  expect(turned).toMatch(/plumb \d+\.\d ± \d+\.\d mrad \(predicted, not shot\), limit/);
});

test('an unpredictable mark is not printed to a tenth of a millimetre', () => {
  expect(nextOutput(LOGS['only the first mirror shot']!)).toMatch(
    /expect M2, gantry near M1 \(rear\): centred, ± \d\.\d mm \(95 %\) M2, gantry far from M1 \(front\): anywhere on the tape, or past it Eyewear/,
  );
});

describe('what was learnt', () => {
  const half = 'a screw that does half of what its pitch says';

  test('is one line after what to expect, and the same in JSON', () => {
    expect(nextOutput(LOGS[half]!)).toMatch(
      / expect M2.* learnt Screw B \(lower right\) of M1 has 5\d % of the effect of its pitch \(± \d %\)\. Eyewear/,
    );
    const [fact] = nextAnswer(typed('next', '--json', place.file('half.alignbook.yaml', LOGS[half]!)).out).learnt;
    expect(fact).toMatchObject({ kind: 'screw', part: 'M1', screw: 'B', share: expect.closeTo(0.5, 1) });
  });

  test('angles are mrad in JSON, as they are in words', () => {
    const [fact] = nextAnswer(
      typed('next', '--json', place.file('tube.alignbook.yaml', LOGS['a tube that points elsewhere']!)).out,
    ).learnt;
    expect(fact).toMatchObject({ kind: 'inclination', off: [{ toward: 'down' }] });
    const { by, u } = (fact as Extract<typeof fact, { kind: 'inclination' }>)!.off[0]!;
    expect(fact!.say).toBe(
      `The tube’s beam is inclined ${by.toFixed(1)} mrad down (± ${(Math.ceil(10 * u) / 10).toFixed(1)} mrad).`,
    );
  });

  test.each(['nothing shot yet', 'a screw in', 'all within', 'no machine', 'an empty file'])(
    'nothing is no line: %s',
    (name) => {
      expect(nextOutput(LOGS[name]!)).not.toContain('learnt');
    },
  );

  test('three lines at most, and first what is to be turned now', () => {
    const screw = (part: string, name: string): Learnt => ({
      kind: 'screw',
      part,
      screw: name,
      share: 0.8,
      u: 0.04,
      say: `${part} ${name}.`,
    });
    const evaluation = evaluated(
      MACHINE,
      LIMITS,
      'marks: M1\nshots: centre\n',
      'marks: M2\nshots: {near: 0.4 right 0 up, far: 2.8 right 0 up}\n',
    );
    expect(evaluation.steps[0]).toMatchObject({ kind: 'turn', part: 'M1', screw: 'B' });
    const learnt = [screw('M2', 'A'), screw('M2', 'B'), screw('M3', 'A'), screw('M1', 'B')];
    expect(
      textOf({ ...evaluation, learnt })
        .split('  learnt  ')[1]!
        .split('\n\n')[0],
    ).toBe('M1 B.\n          M2 A.\n          M2 B.');
  });
});

describe('an offer to do all at once', () => {
  const evaluation = evaluated(
    MACHINE,
    LIMITS,
    'marks: M1\nshots: centre\n',
    'marks: M2\nshots: {near: 0.4 right 0 up, far: 2.8 right 0 up}\n',
  );
  const tube = evaluated(MACHINE, LIMITS, 'marks: M1\nshots: 4 right 0 up\n');
  const offering = { ...evaluation, whole: { probability: 0.7, steps: tube.steps, expected: tube.expected } };

  test('the step comes second and complete: why, what to do, the cells, what to expect', () => {
    const [before, offer] = textOf(offering).split('\nOR ALL AT ONCE\n');
    expect(before).toContain('\nNEXT\n');
    for (const part of [
      '  why     ',
      '  1.      Shift the tube',
      '| adjust: tube',
      '  2.      Fresh tape on M1',
      '  expect  M1: ',
    ])
      expect(offer).toContain(part);
    // The steps that move the tube carry its caution.
    expect(offer).toContain('mains off and capacitor discharged');
  });

  test('is the same in JSON, and is not there where nothing is offered', () => {
    const { whole } = nextAnswer(`${nextJson('x', offering, [])}\n`);
    expect(whole).toMatchObject({
      probability: 0.7,
      steps: [{ kind: 'shift', part: 'tube', y: -4 }, { kind: 'shoot' }],
      expected: [{ station: 'M1' }],
    });
    expect(nextJson('x', evaluation, [])).not.toContain('whole');
    expect(textOf(evaluation)).not.toContain('ALL AT ONCE');
  });
});

describe('between a move and its marks', () => {
  const log = [MACHINE, LIMITS, CENTRED.M1, CENTRED.M2, 'adjust: M1\nturn: {B: in 1/4}\n'];

  test('the line is named that made the marks stale', () => {
    const text = log.join('---\n');
    const line = text.slice(0, text.indexOf('adjust: M1')).split('\n').length;
    expect(nextOutput(text)).toContain(
      `The marks on M2 are stale: screw B of M1 was turned in by 1/4 turn (line ${line}). Shoot M2 again.`,
    );
    expect(typed('next', '--json', place.file('line.alignbook.yaml', text)).out).toContain(`(line ${line})`);
  });

  test('the effect of a screw that was never turned is not predicted', () => {
    const unknown = MACHINE.replace(/screws:\n(?: {6}.*\n)+/, 'screws: {A: {}, B: {}, C: {}}\n');
    const out = nextOutput(
      [unknown, LIMITS, CENTRED.M1, 'marks: M2\nshots: {near: 1 right 0 up, far: 6 right 0 up}\n'].join('---\n'),
    );
    expect(out).toMatch(/expect the effect of A of M1 is not known yet: these marks show it\b/);
    expect(out).not.toMatch(/expect M2/);
  });
});

describe('on the screen', () => {
  const shown = (name: string, columns: number) =>
    nextText('x', bookOf(LOGS[name]!), [], { paint: (_: unknown, text: string) => text, columns });

  test('the step is at the top, the readings below it', () => {
    const out = shown('a screw in', 80);
    expect(out).toMatch(/^x\n\nNEXT\n {2}why {5}On M2 the mark is 2\.8 mm/);
    expect(out.indexOf('M1        within limits')).toBeGreaterThan(out.indexOf('  expect  '));
  });

  test('the cautions are in full before the first shot of a visit, then a line', () => {
    expect(shown('nothing shot yet', 80)).toContain('\nBEFORE YOU FIRE\n  The beam is invisible;');
    const later = shown('a screw in', 80);
    expect(later).toContain('\nEyewear, covers, extraction, cooling, watch.\n');
    expect(later).not.toContain('invisible');
  });

  test.each([40, 60, 80, 100, 300])('text is as wide as the terminal, %s columns, and at most 100', (columns) => {
    const lines = shown('a screw in', columns)
      .split('\n')
      .filter((line) => !/^ {10}\| /.test(line));
    const most = Math.max(...lines.map((line) => line.length));
    expect(most).toBeLessThan(Math.min(columns, 101));
    expect(most).toBeGreaterThan(Math.min(columns, 100) - 12);
  });
});

test('near an even chance the other way is printed with what both cost', () => {
  const even =
    'marks: M2\nshots:\n  - {at: near, mark: 0 right 0.5 up}\n  - {at: 410 mm, mark: 0.5 right 0.5 up}\n  - {at: far, mark: 1.5 right 0.5 up}\n';
  const text = nextText('x', bookOf(after(CENTRED.M1, even)), [], {
    paint: (_: unknown, one: string) => one,
    columns: 80,
  });
  expect(text).toMatch(/^OR (TURN NOW|SHOOT AGAIN)$/m);
  expect(text.replace(/\s+/g, ' ')).toMatch(/The chances are nearly even, so choose\. Shoot again: .* Turn now: M1 /);
});
