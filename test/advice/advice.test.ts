/** The next step for typical logs. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/model/index.ts';
import {
  CENTRED,
  codes,
  evaluated,
  evaluatedWithMistakes,
  LIMITS,
  log,
  MACHINE,
  states,
  stationOf,
  stepTexts,
} from '../support/log.ts';

const { M1, M2, M3, lens } = CENTRED;

/**
 * By hand: 8.04 mrad = (6.0 − 1.5)/560, 6.25 = 3.5/560; 8.14 mm = √(6.0² + 5.5²); u = √(0.5²/12 + 0.2²) = 0.2466 mm.
 */
test('the numbers of one station', () => {
  const evaluation = stationOf(
    log(M1, 'marks: M2\nshots:\n  near: 1.5 right 2.0 down\n  far: 6.0 right 5.5 down\n'),
    'M2',
  );
  const u = Math.sqrt(0.25 / 12 + 0.04);
  expect(evaluation.state).toBe('outside');
  expect(evaluation.requirements[0]).toMatchObject({ limit: 'centre', at: 'far', max: 2 });
  expect(evaluation.requirements[0]!.value).toBeCloseTo(Math.hypot(6, 5.5), 12);
  expect(evaluation.requirements[0]!.u).toBeCloseTo(u, 12);
  expect(evaluation.requirements[1]!.value).toBeCloseTo(Math.hypot(4.5, 3.5), 12);
  expect(evaluation.requirements[1]!.u).toBeCloseTo(u * Math.SQRT2, 12);
  expect(evaluation.slope!.right).toBeCloseTo(4.5 / 560, 12);
  expect(evaluation.slope!.up).toBeCloseTo(-3.5 / 560, 12);
  expect(evaluation.slope!.u.right).toBeCloseTo((u * Math.SQRT2) / 560, 12);
});

/** From the signed check values: at 690 mm a tenth of B in moves the mark 2.24 left, of A in 1.55 down. */
test.each([
  ['too far right', 'near: 0.4 right 0 up, far: 2.8 right 0 up', 'turn M1 B 0.125'],
  ['too far left', 'near: 0.4 left 0 up, far: 2.8 left 0 up', 'turn M1 B -0.125'],
  ['too high', 'near: 0 right 0.6 up, far: 0 right 2.9 up', 'turn M1 A 0.1875'],
  ['too low', 'near: 0 right 0.6 down, far: 0 right 2.9 down', 'turn M1 A -0.1875'],
])('one screw, the right way: the far mark is %s', (_, shots, first) => {
  const evaluation = log(M1, `marks: M2\nshots: {${shots}}\n`);
  expect(stepTexts(evaluation)).toEqual([first, 'shoot M2 near far']);
  expect(evaluation.expected.map(({ at }) => at)).toEqual(['near', 'far']);
  for (const { right, up } of evaluation.expected) expect(Math.hypot(right, up)).toBeLessThan(0.5);
});

test('an off-centre mark on M1 moves the tube, no screw', () => {
  const evaluation = log('marks: M1\nshots: 0 right 4.5 up\n');
  expect(stepTexts(evaluation)).toEqual(['shift tube 0,0,-4.5', 'shoot M1 here']);
});

/** Rear at M1 is the viewer's right there (the beam runs left). */
test('the tube is moved in the machine’s directions', () => {
  expect(stepTexts(log('marks: M1\nshots: 4.5 right 0 up\n'))[0]).toBe('shift tube 0,-4.5,0');
});

test('mirrors further upstream stay if those before the station suffice', () => {
  const evaluation = log(
    M1,
    M2,
    'marks: M3\nshots:\n  - {at: near, mark: 0.3 right 0 up}\n  - {at: far, with: {M2: far}, mark: 3.7 right 0 up}\n',
  );
  expect(stepTexts(evaluation)[0]).toBe('turn M2 B 0.125');
});

describe('heights', () => {
  const high = 'marks: M2\nshots: {near: 0 right 4 up, far: 0 right 4 up}\n';

  test('marks that coincide off centre are no angle error: reported so, and not corrected by screws alone', () => {
    const evaluation = log(M1, high);
    expect(codes(evaluation.findings)).toContain('log.height');
    expect(stepTexts(evaluation).some((step) => step.startsWith('shift'))).toBe(true);
  });

  test('if the tube has no room the advice is blocked, once every mark was repeated', () => {
    const high =
      'marks: M2\nshots: [{at: near, mark: 0 right 6 up}, {at: 410 mm, mark: 0 right 6 up}, {at: far, mark: 0 right 6 up}]\n';
    const shot = (...cells: string[]) =>
      evaluated(
        MACHINE.replace('M1: {leg', 'M1: {moves: [], leg'),
        LIMITS.replace('M1: {centre: 3 mm}', 'M1: {centre: 1 mm}'),
        M1,
        ...cells,
      );
    expect(stepTexts(shot(high))).toEqual(['shoot M2 near far 410']);
    const twice = shot(high, high);
    expect(twice.verdict).toBe('blocked');
    expect(twice.steps[0]!.kind).toBe('repair');
    expect(twice.steps[0]!.cell).toBeUndefined();
  });
});

describe('what marks cannot be steered', () => {
  test('an offset whose two parts were read from two tapes', () => {
    const [right, up] = ['1.8 right', '1.8 up'].map(
      (mark) =>
        `marks: M2\nshots: [{at: near, mark: ${mark}}, {at: 410 mm, mark: ${mark}}, {at: far, mark: ${mark}}]\n`,
    );
    expect(codes(evaluated(MACHINE, LIMITS, M1, right!, up!).findings)).toContain('log.height');
  });

  test('three marks that do not lie on a line', () => {
    const bowed = MACHINE.replace('near: 130 mm, far: 690 mm', 'near: 130 mm, mid: 410 mm, far: 690 mm');
    const evaluation = evaluated(
      bowed,
      LIMITS,
      M1,
      'marks: M2\nshots: {near: 0 right 0 up, mid: 0 right 1.8 up, far: 0 right 0 up}\n',
    );
    expect(codes(evaluation.findings)).toContain('log.bowed');
  });

  test('three marks on a line are no finding', () => {
    const straight = MACHINE.replace('near: 130 mm, far: 690 mm', 'near: 130 mm, mid: 410 mm, far: 690 mm');
    const evaluation = evaluated(
      straight,
      LIMITS,
      M1,
      'marks: M2\nshots: {near: 0 right 0 up, mid: 0 right 0.5 up, far: 0 right 1 up}\n',
    );
    expect(codes(evaluation.findings)).not.toContain('log.bowed');
  });

  const corners = (far: string) =>
    `marks: M3\nshots:\n  - {at: near, mark: centre}\n  - {at: far, mark: centre}\n  - {at: near, with: {M2: far}, mark: centre}\n  - {at: far, with: {M2: far}, mark: ${far}}\n`;

  test('a far corner that depends on the gantry’s position', () => {
    expect(codes(log(M1, M2, corners('3 right 0 up')).findings)).toContain('log.racking');
    expect(codes(log(M1, M2, corners('0.5 right 0 up')).findings)).not.toContain('log.racking');
  });
});

/** From the signed check values: at 690 mm an eighth of B in moves the mark 2.8 mm left. */
describe('a mark that the log does not explain', () => {
  const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${near} 0 up, far: ${far} 0 up}\n`;
  const turned = (cell: string, near: string, far: string) =>
    log(M1, m2('0.4 right', '2.8 right'), cell, m2(near, far)).findings.filter(({ code }) => code === 'log.unexpected');
  const B = (sense: string) => `adjust: M1\nturn: {B: ${sense} 1/8}\n`;

  test.each([
    ['the turn went the way that is logged', B('in'), '0.2 left', '0 right'],
    ['a screw that does no more than 80 % of its pitch', B('in'), '0.1 left', '0.5 right'],
    ['it was the other way, and is logged so', B('out'), '0.9 right', '5.6 right'],
    ['nobody says what happened between', 'event: moved\n', '1 right', '6 right'],
  ])('is none where %s', (_, cell, near, far) => expect(turned(cell, near, far)).toEqual([]));

  test.each([
    ['a turn is logged the wrong way round', B('in'), '0.9 right', '5.6 right', '5.6 right (machine left)'],
    [
      'a mark is written on the wrong side',
      'care: M1\ndid: inspected\n',
      '0.4 left',
      '2.8 left',
      '2.8 left (machine right)',
    ],
  ])('is told where %s', (_, cell, near, far, mark) => {
    const [evaluation, ...others] = turned(cell, near, far);
    expect(others).toEqual([]);
    expect(evaluation!.facts).toMatchObject({ station: 'M2', place: ' (gantry far from M1, front)', mark });
  });

  test('a turn that was never made is reported as without effect, not as an unexpected mark', () => {
    const evaluation = log(
      M1,
      m2('0.4 right', '2.8 right'),
      B('in').replace('1/8', '1/4'),
      m2('0.4 right', '2.8 right'),
    );
    expect(codes(evaluation.findings)).toEqual(['log.unmoved']);
    expect(stepTexts(evaluation)).toEqual(['check', 'shoot M2 far']);
  });

  test('the finding has the predicted mark and its uncertainty', () => {
    const [{ facts }] = turned(B('in'), '0.9 right', '5.6 right') as [Finding];
    expect(facts['expected']).toMatch(/^(centred|0\.\d (left|right) \(machine (left|right)\))$/);
    expect(parseFloat(facts['within']!)).toBeGreaterThan(0.5);
    expect(parseFloat(facts['within']!)).toBeLessThan(2.5);
  });

  describe('is used once a repeat confirms it', () => {
    const limits = LIMITS.replace(/M2: .*/, 'M2: {centre: 3 mm, spread: 5 mm}');
    const centred = [M2, M2, M2, M2];
    const off = m2('3.5 right', '3.5 right');

    test('before that it is set aside, and its place requested', () => {
      const evaluation = evaluated(MACHINE, limits, M1, ...centred, off);
      expect([stationOf(evaluation, 'M2').state, stepTexts(evaluation)]).toEqual(['borderline', ['shoot M2 far']]);
      expect(evaluation.steps[0]!.why).toMatch(/^The mark on M2 \(gantry far from M1, front\) is unexplained\./);
    });

    test('earlier readings are not averaged in: four good rounds do not make a bad one within', () => {
      const M2now = stationOf(evaluated(MACHINE, limits, M1, ...centred, off, off), 'M2');
      expect(M2now.state).toBe('outside');
      expect(M2now.requirements.find(({ limit }) => limit === 'centre')!.value).toBeCloseTo(3.5, 9);
    });

    test('a shot that confirms it is no finding', () => {
      const evaluation = evaluated(MACHINE, limits, M1, ...centred, off, off);
      expect(evaluation.findings.filter(({ code }) => code === 'log.unexpected').length).toBe(1);
      expect(stationOf(evaluation, 'M2').readings.length).toBe(4);
    });

    test('stations after it are shot again, those before it stay fresh', () => {
      const evaluation = evaluated(
        MACHINE,
        limits.replace('centre: 3 mm, spread: 5 mm', 'centre: 5 mm, spread: 5 mm'),
        M1,
        ...centred,
        M3,
        lens,
        off,
        off,
      );
      expect(states(evaluation)).toBe('M1 within, M2 within, M3 stale, lens stale');
      expect(evaluation.steps[0]!.why).toMatch(
        /^The marks on M3 are stale: the marks on M2 \(cell \d+\) contradict the log\. Shoot M3 again\.$/,
      );
    });

    test('the same after a long stretch', () => {
      const often = Array.from({ length: 120 }, () => off);
      expect(stationOf(evaluated(MACHINE, limits, M1, M3, ...centred, off, ...often), 'M3').state).toBe('stale');
    });
  });

  /** The model cannot explain it even after repeats; three shots still carry more information than one. */
  test('repeats on a bowed rail are no contradiction: its marks agree', () => {
    const bowed =
      'marks: M3\nshots:\n  - {at: near, mark: 0 right 0 up}\n  - {at: 500 mm, mark: 3.5 right 0 up}\n  - {at: far, with: {M2: far}, mark: 0 right 0 up}\n';
    const evaluation = log(M1, M2, bowed, bowed.replace('3.5', '3'), bowed);
    expect(stationOf(evaluation, 'M3').readings.length).toBe(9);
    expect(codes(evaluation.findings).filter((code) => code === 'log.unexpected')).toEqual([]);
  });

  test('a mark with one coordinate is no contradiction', () => {
    const evaluation = log(
      M1,
      'marks: M2\nshots: {near: 0 right, far: 0 right}\n',
      'marks: M2\nshots: {near: 6 right, far: 9 right}\n',
    );
    expect(codes(evaluation.findings)).not.toContain('log.unexpected');
  });

  test('marks of one cell off a line are no contradiction: a bowed rail', () => {
    const bowed = log(
      M1,
      M2,
      'marks: M3\nshots:\n  - {at: near, mark: 0 right 0 up}\n  - {at: 500 mm, mark: 3.5 right 0 up}\n  - {at: far, mark: 0 right 0 up}\n',
    );
    expect(codes(bowed.findings)).toContain('log.bowed');
    expect(codes(bowed.findings)).not.toContain('log.unexpected');
  });
});

describe('a tape that the beam missed', () => {
  test('with a mark nearby: the longest leg at which the next mark is still on the tape', () => {
    const evaluation = log(M1, 'marks: M2\nshots: {near: 2 right 1 up, far: none}\n');
    expect(stationOf(evaluation, 'M2').state).toBe('outside');
    const [step] = evaluation.steps;
    expect(step).toMatchObject({ kind: 'shoot', station: 'M2' });
    const leg = step!.kind === 'shoot' ? Number(step!.shots[0]!.at) : NaN;
    expect(leg).toBeGreaterThan(130);
    expect(leg).toBeLessThan(690);
    const nearer = [
      'marks: M2\nshots: {near: 2 right 1 up, far: none}\n',
      `marks: M2\nshots:\n  - {at: ${leg} mm, mark: 6 right 3 up}\n`,
    ];
    expect(stepTexts(log(M1, ...nearer))[0]).toMatch(/^turn M1/);
  });

  test('without any mark: blocked, and the work to do by hand', () => {
    const evaluation = log(M1, 'marks: M2\nshots: {near: none, far: none}\n');
    expect(evaluation.verdict).toBe('blocked');
    expect(evaluation.steps[0]!.say).toContain('larger piece of tape');
  });
});

describe('inside, but not proven', () => {
  const doubtful = 'marks: M2\nshots: {near: 1.4 right 1.2 up, far: 1.4 right 1.2 up}\n';

  test('another shot is cheaper than another turn', () => {
    const evaluation = log(M1, doubtful);
    expect(states(evaluation)).toContain('M2 borderline');
    expect(stepTexts(evaluation)).toEqual(['shoot M2 410']);
    expect(evaluation.steps[0]!.why).toContain('Another shot');
  });

  test('three readings prove it, one does not', () => {
    const once = stationOf(log(M1, doubtful), 'M2').probability!;
    const thrice = stationOf(log(M1, doubtful, doubtful, doubtful), 'M2').probability!;
    expect(thrice).toBeGreaterThan(once);
  });
});

describe('plumb', () => {
  const limits = LIMITS.replace('lens: {centre: 1.5 mm}', 'lens: {centre: 1.5 mm, plumb: 12 mrad}');

  test('is requested with tapes at two heights', () => {
    const evaluation = evaluated(MACHINE, limits, M1, M2, M3, lens);
    expect(stepTexts(evaluation)).toEqual([
      'shoot lens here/M2=near/M3=near/height=20 here/M2=near/M3=near/height=150',
    ]);
  });

  /** 3 mm over 100 mm is 30 mrad; only the difference counts, wherever the tape lies. */
  test('is the difference of two marks on one tape over their heights, and M3’s screws set it', () => {
    const bed =
      'marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: 7 right 40 front}\n  - {at: here, height: 120 mm, mark: 10 right 40 front}\n';
    const evaluation = evaluated(MACHINE, limits, M1, M2, M3, lens, bed);
    const plumb = stationOf(evaluation, 'lens').requirements.find(({ limit }) => limit === 'plumb')!;
    expect(plumb.value).toBeCloseTo(0.03, 12);
    expect(evaluation.steps.some((step) => step.kind === 'turn' && step.part === 'M3')).toBe(true);
  });

  const bed = (right: string) =>
    `marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: 7 right 40 front}\n  - {at: here, height: 120 mm, mark: ${right} 40 front}\n`;
  const HEIGHTS = 'here/M2=near/M3=near/height=20 here/M2=near/M3=near/height=150';
  const turn = (amount: string) => `adjust: M2\nturn: {A: in ${amount}}\n`;
  /** At the places before, the turn would have had no effect. */
  const MOVED = [M3, M3, lens].map((cell) =>
    cell.replaceAll('centre', cell === lens ? '0.5 right 0.9 rear' : '0.5 right 0.9 up'),
  );
  const held = MACHINE.replace('  fires: left\n', '  fires: left\n  holders: {exit: 100 mm, tail: 900 mm}\n');
  const after = (...cells: string[]) => evaluated(held, limits, M1, M2, M3, lens, ...cells);

  test('is not shot again after a small turn: its effect is predicted', () => {
    const evaluation = after(bed('7.5 right'), turn('1/16'), M3, lens);
    const { state, requirements, readings } = stationOf(evaluation, 'lens');
    expect([state, readings.every(({ height }) => height === 0)]).toEqual(['within', true]);
    expect(requirements.find(({ limit }) => limit === 'plumb')!.value).toBeLessThan(0.012);
  });

  test('is requested together with the corners after a turn for plumb', () => {
    expect(stepTexts(after(bed('9 right'))).at(-1)).toBe(
      `shoot lens here/M2=near/M3=near here/M2=far/M3=far ${HEIGHTS}`,
    );
  });

  test.each([
    ['a lock', bed('7 right'), 'adjust: M3\nlock: tight\n', M3, lens],
    ['a mirror that was out', bed('7 right'), 'care: M2\ndid: removed and cleaned\n', M3, lens],
    ['a knock', bed('7 right'), 'event: moved\n', M1, M2, M3, lens],
    [
      'one end of the tube moved alone',
      bed('7 right'),
      'adjust: tube\nshift: 0.5 mm up\nend: tail\n',
      M1,
      M2,
      M3,
      lens,
    ],
    ['a turn that may have spoilt it', bed('7 right'), turn('3/8'), ...MOVED],
    ['many small turns the same way', bed('7 right'), turn('1/8'), turn('1/8'), turn('1/8'), ...MOVED],
    ['a small turn where it was out before: perhaps the turn was never made', bed('8.5 right'), turn('1/16'), M3, lens],
    [
      'a tape on the bed that the beam missed',
      bed('7 right'),
      'marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: centre}\n  - {at: here, height: 150 mm, mark: none}\n',
      lens,
    ],
  ])('is shot again after %s', (_, ...cells) => {
    expect(stepTexts(after(...cells))).toEqual([`shoot lens ${HEIGHTS}`]);
  });

  test('is shot again after a lens cell with errors', () => {
    expect(
      stepTexts(
        evaluatedWithMistakes(MACHINE, limits, M1, M2, M3, lens, bed('7 right'), 'marks: lens\nshots: [[[\n', lens),
      ),
    ).toEqual([`shoot lens ${HEIGHTS}`]);
  });

  test('turns in and out again leave it valid', () => {
    expect(
      stationOf(after(bed('7 right'), turn('1/4'), turn('1/4').replace('in', 'out'), M3, lens), 'lens').state,
    ).toBe('within');
  });

  test.each([
    ['both heights', 'centre', 'none', 'The beam misses the tape on the bed below lens'],
    ['both parts', '1 right', '1 right', 'Log two heights in one cell, with both directions read'],
  ])('reports what the tapes lack: %s', (_, near, far, said) => {
    const evaluation = after(
      `marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: ${near}}\n  - {at: here, height: 150 mm, mark: ${far}}\n`,
    );
    expect(evaluation.steps[0]!.why).toContain(said);
  });
});

describe('a mount with unknown screw places', () => {
  const unknown = MACHINE.replace(/ {6}A: .*\n.*\n.*\n/, '      A: {}\n      B: {}\n');
  const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
  const before = [unknown, LIMITS, M1, m2('0.5 right 0 up', '4.5 right 0 up')];
  // A moved the far mark 4.2 mm down and nothing sideways, B 7 mm left.
  const triedA = [...before, 'adjust: M1\nturn: {A: in 3/16}\n', m2('0.5 right 0.8 down', '4.5 right 4.2 down')];
  const triedB = [...triedA, 'adjust: M1\nturn: {B: in 1/4}\n', m2('0.8 left 0.8 down', '2.5 left 4.2 down')];

  test('gets one small trial turn of each screw, a larger one if the mark is far out', () => {
    expect(stepTexts(evaluated(...before))).toEqual(['turn M1 A 0.1875', 'shoot M2 near far']);
    expect(stepTexts(evaluated(...triedA))).toEqual(['turn M1 B 0.25', 'shoot M2 near far']);
  });

  test('is known after the trials: both screws turn back by the estimated amounts', () => {
    const turns = evaluated(...triedB).steps.filter((step) => step.kind === 'turn');
    expect(turns.map(({ screw }) => screw)).toEqual(['A', 'B']);
    expect(turns[0]!.turns).toBeLessThan(0);
    expect(turns[1]!.turns).toBeLessThan(0);
  });

  /**
   * The remaining turns are much larger than the trial turns, so the result of the first computed turns is uncertain; a
   * turn of C would not change that.
   */
  test('its third screw is not tried if two can tilt the mirror in every direction', () => {
    const three = [
      before[0]!.replace('      B: {}\n', '      B: {}\n      C: {}\n'),
      LIMITS,
      M1,
      m2('0.5 left 1 up', '8 left 7 up'),
    ];
    const tried = [
      ...three,
      'adjust: M1\nturn: {A: in 3/16}\n',
      m2('0.5 left 1.5 up', '8 left 9.5 up'),
      'adjust: M1\nturn: {B: in 1/4}\n',
      m2('1 left 1 up', '9.8 left 8 up'),
    ];
    const evaluation = evaluated(...tried);
    expect(evaluation.steps.filter((step) => step.kind === 'turn').map(({ screw }) => screw)).toEqual(['A', 'B']);
    expect(evaluation.steps[0]!.why).toMatch(/chance that M2 is then within is \d %/);
  });

  /** Its sideways effect was small: not known yet, but in the wrong direction. */
  test('is tried out instead of in if the first turn went the wrong way', () => {
    const worse = [...before, 'adjust: M1\nturn: {A: in 1/32}\n', m2('0.5 right 0 up', '5 right 0 up')];
    expect(stepTexts(evaluated(...worse))[0]).toBe('turn M1 A -0.1875');
  });
});
