/**
 * Rails that sag and gantries that rack: predicted where nobody has shot, learnt from marks, kept, forgotten, and said
 * for what they are.
 */
import { describe, expect, test } from 'vitest';
import { message } from '../../src/model/index.ts';
import { CENTRED, codes, evaluated, LIMITS, log, MACHINE, stationOf, stepTexts } from '../support/log.ts';

const { M1, M2, M3, lens } = CENTRED;
const ENDS = 'marks: M2\nshots: {near: centre, far: centre}\n';
const middle = (mark: string) =>
  `marks: M2\nshots: [{at: near, mark: centre}, {at: 410 mm, mark: ${mark}}, {at: far, mark: centre}]\n`;
const SAGGING = middle('0 right 2.5 down');
const SLIGHT = middle('0 right 1 down');
const TWO = 'session: two\n';
const DIAGONAL = 'marks: M3\nshots: [{at: near, mark: centre}, {at: far, with: {M2: far}, mark: centre}]\n';
const corners = (far: string) =>
  `marks: M3\nshots:\n  - {at: near, mark: centre}\n  - {at: far, mark: centre}\n  - {at: near, with: {M2: far}, mark: centre}\n  - {at: far, with: {M2: far}, mark: ${far}}\n  - {at: 490 mm, mark: centre}\n`;

describe('the middle of a long travel', () => {
  test('is requested if the ends are perfect and it was not shot: a rail may sag', () => {
    const evaluation = log(M1, ENDS);
    expect(stationOf(evaluation, 'M2').state).toBe('borderline');
    expect(stepTexts(evaluation)).toEqual(['shoot M2 410']);
  });

  test('is not requested again after a shot', () => {
    expect(stationOf(log(M1, M2), 'M2').state).toBe('within');
    expect(stepTexts(log(M1, M2))[0]).toMatch(/^shoot M3/);
  });

  test('is not requested of a short travel, near a named stop, or with wide limits', () => {
    const short = evaluated(MACHINE.replace('far: 690 mm', 'far: 320 mm'), LIMITS, M1, ENDS);
    expect(stationOf(short, 'M2').state).toBe('within');
    const named = MACHINE.replace('far: 690 mm', 'half: 430 mm, far: 690 mm');
    expect(stepTexts(evaluated(named, LIMITS, M1, ENDS))).toEqual(['shoot M2 half']);
    expect(
      stationOf(evaluated(named, LIMITS, M1, 'marks: M2\nshots: {near: centre, half: centre, far: centre}\n'), 'M2')
        .state,
    ).toBe('within');
    expect(
      stationOf(
        evaluated(
          MACHINE,
          LIMITS.replace('M2: {centre: 2 mm, spread: 1.5 mm}', 'M2: {centre: 6 mm, spread: 6 mm}'),
          M1,
          ENDS,
        ),
        'M2',
      ).state,
    ).toBe('within');
  });

  test('in inches is half an inch or whole', () => {
    const inches = MACHINE.replace('machine: wren', 'machine: wren\nunits: in').replace(
      'near: 130 mm, far: 690 mm',
      'near: 5 in, far: 27 1/2 in',
    );
    const [step] = evaluated(inches, LIMITS, M1, ENDS).steps;
    expect(step!.cell).toContain('at: 16 1/2 in');
    expect(
      stationOf(evaluated(inches, LIMITS, M1, ENDS, 'marks: M2\nshots: [{at: 16 1/2 in, mark: centre}]\n'), 'M2').state,
    ).toBe('within');
  });
});

describe('a rail that sags', () => {
  test('is reported in millimetres, and after a repeat with what to inspect; no screw is turned', () => {
    const once = log(M1, SAGGING);
    expect(once.findings.filter(({ code }) => code === 'log.bowed').map(message)).toEqual([
      expect.stringMatching(
        /^Halfway along the travel the mark on M2 is off the line through the end marks: 2\.\d down ± 0\.3 mm\. No screw can correct this\.$/,
      ),
    ]);
    expect(stepTexts(once)).toEqual(['shoot M2 near far 410']);
    const twice = log(M1, SAGGING, SAGGING);
    expect(twice.verdict).toBe('blocked');
    expect(twice.steps[0]!.say).toMatch(
      /^No screw brings M2 within its limits\. Halfway along its travel the mark on M2 is 2\.\d down \(± 0\.2 mm\) off the line through the end marks: .*straightedge/,
    );
  });

  test('is not blamed while tapes of one place differ so much that a part may be loose', () => {
    const uneven =
      'marks: M2\nshots: [{at: near, mark: centre}, {at: 410 mm, mark: 1 right 3 down}, {at: far, mark: 1 left 0.5 down}]\n';
    const unsure = log(M1, SAGGING, uneven);
    expect(stepTexts(unsure)).toEqual(['shoot M2 near far 410']);
    expect(unsure.steps[0]!.why).toMatch(
      /A loose part would look the same, and is not excluded \(probability 20 %\)\./,
    );
    const sixTimes = log(M1, SAGGING, uneven, SAGGING, SAGGING, SAGGING, SAGGING);
    expect(stepTexts(sixTimes)).toEqual(['repair']);
    expect(sixTimes.steps[0]!.say).toMatch(/the rail is bent or sags/);
  });

  test('in inches in inches', () => {
    const evaluation = evaluated(
      MACHINE.replace('machine: wren', 'machine: wren\nunits: in'),
      LIMITS,
      M1,
      ...[1, 2].map(() => middle('0 mm right 2.5 mm down')),
    );
    const said = [...evaluation.findings.map(message), ...evaluation.steps.flatMap(({ say, why }) => [say, why ?? ''])];
    expect(said.join('\n')).toMatch(/off the line through the end marks: 3\/32 in down ± 0\.0\d+ in/);
    expect(said.filter((text) => /\bmm\b/.test(text))).toEqual([]);
  });

  test('stays estimated through turns, sessions and releases, without another shot', () => {
    expect(
      codes(log('session: one\n', M1, SAGGING, TWO, M1, ENDS).findings).filter((code) => code === 'log.bowed'),
    ).toHaveLength(2);
    expect(stationOf(log(M1, SAGGING, 'adjust: M1\nturn: {A: in 1/16}\n', ENDS), 'M2').state).not.toBe('within');
    for (const between of [[TWO], ['release: in service\nby: kt\n', TWO]]) {
      expect(stationOf(log('session: one\n', M1, SLIGHT, ...between, M1, ENDS), 'M2').probability).toBeGreaterThan(
        0.85,
      );
      expect(stationOf(log('session: one\n', M1, M2, ...between, M1, ENDS), 'M2').state).toBe('within');
    }
  });

  test.each([
    ['an event', ['event: collision\n']],
    ['a changed machine cell', [MACHINE.replace('leg: 90 mm', 'leg: 91 mm')]],
  ])('is forgotten after %s', (_, between) => {
    expect(stepTexts(log(M1, M2, ...between, M1, ENDS))).toEqual(['shoot M2 410']);
  });
});

describe('a gantry that racks', () => {
  test('is reported in millimetres more than the angles explain', () => {
    const evaluation = log(M1, M2, corners('4 right 0 up')).findings.filter(({ code }) => code === 'log.racking');
    expect(evaluation.map(message)).toEqual([
      expect.stringMatching(
        /^M2 turns along its travel: at M3 the two ends differ by 3\.\d ± 0\.\d mm more than the angles explain\./,
      ),
    ]);
    expect(codes(log(M1, M2, corners('0.5 right 0 up')).findings)).not.toContain('log.racking');
  });

  test('is tested at the corners where it could show, and kept for the next visit', () => {
    expect(stepTexts(log(M1, M2, DIAGONAL))[0]).toMatch(/^shoot M3 (far\/M2=near|near\/M2=far)/);
    const later = log('session: one\n', M1, M2, corners('4 right 0 up'), TWO, M1, M2, DIAGONAL);
    expect(stationOf(later, 'M3').state).toBe('outside');
    expect(codes(later.findings).filter((code) => code === 'log.racking')).toHaveLength(2);
  });

  test('a square gantry stays known too: opposite corners are enough until an event', () => {
    const visits = (...between: string[]) =>
      log('session: one\n', M1, M2, M3, lens, ...between, M1, ENDS, DIAGONAL, lens);
    expect(visits(TWO).verdict).toBe('within');
    expect(visits('event: collision\n').verdict).toBe('continue');
  });
});

/** 2.5 mm over the 60 mm from M3 to the lens are some 40 mrad. */
describe('a lens mark that M3 could steer', () => {
  const off = 'marks: lens\nshots: [{mark: 2.5 right 0 rear}, {with: {M2: far, M3: far}, mark: 2.5 right 0 rear}]\n';

  test('without a plumb limit two heights come first, with the reason', () => {
    const evaluation = log(M1, M2, M3, off);
    expect(stepTexts(evaluation)).toEqual([
      'shoot lens here/M2=near/M3=near/height=20 here/M2=near/M3=near/height=150',
    ]);
    expect(evaluation.steps[0]!.why).toMatch(
      /Steering it to the centre with M3 would tilt the beam by \d\d mrad, and lens has no plumb limit\. Shoot two heights first/,
    );
  });

  test('of a plumb beam off centre: M3’s screws turn alike or not at all', () => {
    const straight =
      'marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: 2.5 right 0 rear}\n  - {at: here, height: 150 mm, mark: 2.5 right 0 rear}\n';
    const evaluation = log(M1, M2, M3, off, straight);
    const turns = evaluation.steps.flatMap((step) => (step.kind === 'turn' && step.part === 'M3' ? [step.turns] : []));
    expect(new Set(turns).size).toBeLessThanOrEqual(1);
    expect([0, 3]).toContain(turns.length);
  });
});
