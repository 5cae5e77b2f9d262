/**
 * What can be moved: which block, the tube by its ends, a screw that is at its end, and threads that go the other way.
 */
import { describe, expect, test } from 'vitest';
import { moveOf, shifting } from '../../src/plan/adjusters.ts';
import { estimate, predict } from '../../src/estimate/estimate.ts';
import { fold } from '../../src/estimate/fold.ts';
import { NO_MOVE } from '../../src/machine/move.ts';
import { queryAt } from '../../src/machine/places.ts';
import type { Station } from '../../src/machine/system.ts';
import type { Step } from '../../src/model/index.ts';
import { CENTRED, evaluated, LIMITS, log, MACHINE, stepTexts, reader } from '../support/log.ts';

const { M1, M2 } = CENTRED;
const marks = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
const says = (steps: readonly Step[]) => steps.map(({ say }) => say).join('\n');

describe('the block of the first mirror', () => {
  const SIDEWAYS = marks('4 right 0 up', '4 right 0 up');
  const ALONG = [expect.stringMatching(/^shift M1 (3\.75|4),0,0$/), 'shoot M1 here'];

  test('is moved along the tube’s beam if the marks coincide off centre: the mark on it stays', () => {
    const evaluation = log(M1, SIDEWAYS);
    expect(stepTexts(evaluation)).toEqual(ALONG);
    expect(Math.abs(evaluation.expected[0]!.right)).toBeLessThan(0.2);
  });

  test.each([
    ['a combiner', 'combiner: {leg: 40 mm, aperture: 15 mm}'],
    ['a shutter and a window', 'shutter: {leg: 20 mm, aperture: 15 mm}\n  window: {leg: 20 mm, aperture: 15 mm}'],
  ])('also behind %s', (_, before) => {
    const machine = MACHINE.replace('path:\n', `path:\n  ${before}\n`);
    expect(stepTexts(evaluated(machine, LIMITS, M1, SIDEWAYS))).toEqual(ALONG);
  });

  test('and no other, unless the machine cell names how', () => {
    const machine = MACHINE.replace('M1: {', 'M1: {moves: [up], ').replace('M2: {', 'M2: {moves: [left], ');
    const steps = evaluated(machine, LIMITS, M1, SIDEWAYS).steps.flatMap((step) =>
      step.kind === 'shift' ? [step] : [],
    );
    for (const { part, by } of steps) if (part === 'M1') expect(by[0]).toBe(0);
  });

  test('can be lifted together with the tube if heights differ: the mark on it stays, and those after it rise', () => {
    const known = estimate(
      fold(
        reader.read([MACHINE, LIMITS, M1, M2].join('---\n'), {
          file: 'test.alignbook.yaml',
          files: new Map(),
        }).entries,
      ),
    )!;
    const [first, second] = known.system.stations as [Station, Station];
    const both = shifting(known.system, second)
      .map(({ adjusters }) => adjusters.filter(({ axis }) => axis?.[2] === 1))
      .find((lifts) => lifts.length === 2)!;
    expect(both.map(({ part }) => part)).toEqual(['tube', 'M1']);
    const queries = [queryAt(first, {}), queryAt(second, { M2: 130 }), queryAt(second, { M2: 690 })];
    const [before, after] = [NO_MOVE, moveOf(both, [3.5, 3.5])].map((move) => predict(known, queries, move)!.mean);
    expect([...after!].map((mark, k) => Math.round((mark - before![k]!) * 1e6) / 1e6 + 0)).toEqual([
      0, 0, 0, 3.5, 0, 3.5,
    ]);
  });
});

describe('after a new tube', () => {
  const HELD = MACHINE.replace('  fires: left\n', '  fires: left\n  holders: {exit: 120 mm, tail: 980 mm}\n');
  const STEEP = marks('0.5 right 0 up', '4 right 0 up');
  const parts = (...cells: string[]) =>
    evaluated(HELD, LIMITS, M1, M2, ...cells).steps.flatMap((step) =>
      step.kind === 'turn' || step.kind === 'shift'
        ? [step.kind === 'shift' ? `${step.part} ${step.end ?? 'whole'}` : `${step.part} ${step.screw}`]
        : [],
    );

  test('the tube is aimed by its tail before a mirror that fits the old one is turned', () => {
    const evaluation = evaluated(HELD, LIMITS, M1, M2, 'event: new tube\n', M1, STEEP);
    const [step] = evaluation.steps;
    // 6.25 mrad over the 860 mm between its holders, less what the exit's end moves with it.
    expect(step).toMatchObject({ kind: 'shift', part: 'tube', end: 'tail', by: [0, -4.25, 0] });
    expect(step!.say).toMatch(/^Shift the tail end of the tube 4\.25 mm front; its exit end stays where it is\./);
    expect(step!.cell).toBe('adjust: tube\nshift: 4.25 mm front\nend: tail\n');
    expect(evaluation.steps.at(-1)).toMatchObject({ kind: 'shoot', station: 'M1' });
    expect(evaluated(HELD, LIMITS, M1, M2, 'event: new tube\n', M1, STEEP, step!.cell!).verdict).toBe('continue');
  });

  test.each<[string, string[], RegExp]>([
    ['an event that is no new tube', ['event: moved\n'], /^M1 [ABC]$/],
    ['a new tube', ['event: new tube\n'], /^tube tail$/],
    ['a tube that was replaced', ['care: tube\ndid: replaced\n'], /^tube tail$/],
    ['a new tube, and a mirror turned since', ['event: new tube\n', 'adjust: M1\nturn: {A: in 1/16}\n'], /^M1 [ABC]$/],
    ['a new tube, and the tube shifted since', ['event: new tube\n', 'adjust: tube\nshift: 1 mm up\n'], /^tube tail$/],
    ['a new tube, and the machine moved since', ['event: new tube\n', 'event: moved\n'], /^M1 [ABC]$/],
    [
      'a new tube in an earlier service',
      ['event: new tube\n', M1, M2, 'release: in service\n', 'session: two\n'],
      /^M1 [ABC]$/,
    ],
  ])('%s', (_, cells, expected) => {
    const moved = parts(...cells, M1, STEEP);
    expect(moved.length).toBeGreaterThan(0);
    for (const one of moved) expect(one).toMatch(expected);
  });

  test('a tube without holders in the workbook: the whole tube is moved, otherwise the mirrors are turned', () => {
    const evaluation = log('event: new tube\n', 'marks: M1\nshots: 5 left 3 down\n');
    expect(stepTexts(evaluation)).toEqual(['shift tube 0,5,3', 'shoot M1 here']);
  });
});

describe('a screw at its end', () => {
  const OFF = marks('0.4 right 0 up', '2.8 right 0 up');
  const ENDED = 'adjust: M1\nno further: {B: in}\n';
  const turns = (...cells: string[]) =>
    log(...cells, M1, OFF).steps.flatMap((step) => (step.kind === 'turn' ? [`${step.screw} ${step.turns}`] : []));

  test('is turned back only; other screws replace it', () => {
    expect(turns()).toEqual(['B 0.125']);
    expect(turns(ENDED)).toEqual(['A -0.125', 'C -0.125']);
  });

  test.each<[string, string[], string[]]>([
    ['turned back', [ENDED, 'adjust: M1\nturn: {B: out 1/8}\n'], ['B 0.125']],
    ['turned on instead', [ENDED, 'adjust: M1\nturn: {B: in 1/8}\n'], ['A -0.125', 'C -0.125']],
    ['another screw turned back', [ENDED, 'adjust: M1\nturn: {A: out 1/8}\n'], ['A -0.125', 'C -0.125']],
    ['the mirror replaced', [ENDED, 'care: M1\ndid: replaced\n'], ['B 0.125']],
    ['the mirror only cleaned', [ENDED, 'care: M1\ndid: removed and cleaned\n'], ['A -0.125', 'C -0.125']],
    ['another mirror replaced', [ENDED, 'care: M2\ndid: replaced\n'], ['A -0.125', 'C -0.125']],
    ['another machine cell', [ENDED, MACHINE.replace('knob: 14 mm', 'knob: 15 mm'), LIMITS], ['B 0.125']],
    ['the same machine cell again', [ENDED, MACHINE], ['A -0.125', 'C -0.125']],
    ['an event, and a new visit', [ENDED, 'event: moved\n', 'session: two\n'], ['A -0.125', 'C -0.125']],
    ['the other way', ['adjust: M1\nno further: {B: out}\n'], ['B 0.125']],
    ['on another mirror', ['adjust: M2\nno further: {B: in}\n'], ['B 0.125']],
  ])('%s', (_, cells, expected) => expect(turns(...cells)).toEqual(expected));

  test('is reported with a remedy if nothing else helps', () => {
    const pivot = MACHINE.replace('      C: {right: -22 mm, up: -22 mm}\n', '')
      .replace('    thread: M4', '    pivot: {right: -22 mm, up: -22 mm}\n    thread: M4')
      .replace('M1: {', 'M1: {moves: [up], ');
    const evaluation = evaluated(
      pivot,
      LIMITS,
      'adjust: M1\nno further: {B: in}\n',
      M1,
      'marks: M2\nshots: [{at: near, mark: 0 right 0 up}, {at: 410 mm, mark: 4 right 0 up}, {at: far, mark: 8 right 0 up}]\n',
    );
    expect(evaluation.verdict).toBe('blocked');
    expect(says(evaluation.steps)).toMatch(
      /screw B \(lower right\) of M1 goes no further in\. Back off all screws of that mirror by the same amount to make room, or move its block/,
    );
  });

  test('the declaration moves no mark', () => {
    const [before, after] = [log(M1, M2), log(M1, M2, ENDED)];
    expect(after.stations).toEqual(before.stations);
  });

  test('the trial of a screw in an unknown place goes the other way', () => {
    const unknown = MACHINE.replace(/\{right: -?22 mm, up: -?22 mm\}/g, '{}').replace('    in: toward beam\n', '');
    const turned = (...cells: string[]) =>
      evaluated(unknown, LIMITS, ...cells, M1, OFF).steps.flatMap((step) =>
        step.kind === 'turn' ? [Math.sign(step.turns)] : [],
      );
    expect(turned()).toEqual([1]);
    expect(turned('adjust: M1\nno further: {A: in}\n')).toEqual([-1]);
  });
});

describe('a left-hand thread', () => {
  const LEFT = MACHINE.replace('thread: M4', 'thread: M4 LH');
  const OFF = (way: string) => marks(`0.4 ${way} 0 up`, `2.8 ${way} 0 up`);

  test.each([
    [
      'right',
      'in by 1/8 turn (anticlockwise: left-hand thread; 5.5 mm at the rim)',
      'in by 1/8 turn (clockwise; 5.5 mm at the rim)',
    ],
    [
      'left',
      'out by 1/8 turn (clockwise: left-hand thread; 5.5 mm at the rim)',
      'out by 1/8 turn (anticlockwise; 5.5 mm at the rim)',
    ],
  ])('%s: the same turn, in the other sense of the clock, and it is said which', (way, left, right) => {
    const [lh, rh] = [evaluated(LEFT, LIMITS, M1, OFF(way)), log(M1, OFF(way))];
    expect(stepTexts(lh)).toEqual(stepTexts(rh));
    expect(says(lh.steps)).toContain(left);
    expect(says(rh.steps)).toContain(right);
  });
});
