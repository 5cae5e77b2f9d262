/** What keeps marks from being taken at their word, and the careful step that settles it. */
import { describe, expect, test } from 'vitest';
import { fold } from '../../src/estimate/fold.ts';
import { doubts } from '../../src/estimate/doubts.ts';
import { type Evaluation, message } from '../../src/model/index.ts';
import { CENTRED, codes, evaluated, LIMITS, log, MACHINE, stationOf, stepTexts, reader } from '../support/log.ts';

const { M1, M2, M3, lens } = CENTRED;
const m2 = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
const far = (mark: string) => `marks: M2\nshots: {far: ${mark}}\n`;
const moves = ({ steps }: Evaluation) => steps.filter(({ kind }) => kind === 'turn' || kind === 'shift');
const doubtsOf = (...cells: string[]) =>
  doubts(
    fold(
      reader.read([MACHINE, LIMITS, ...cells].join('---\n'), {
        file: 'test.alignbook.yaml',
        files: new Map(),
      }).entries,
    ),
  );

describe('marks of one place that differ, with nothing moved in between', () => {
  const PAIR = [M1, m2('0.5 right 0 up', '0.5 right 0 up'), far('0.5 left 1.5 up')];
  const LOOSE = [
    M1,
    m2('0 right 0 up', '0.5 right 0 up'),
    m2('0.5 right 0 up', '3.5 right 1.5 up'),
    'marks: M2\nshots: [{at: near, mark: [0 right 0.5 up, 0.5 left 0 up]}, {at: far, mark: [2 left 1.5 down, 3 right 2 down]}]\n',
  ];

  test('of a pair one may be misread: the place is repeated, the near stop with it, and nothing is moved', () => {
    const result = log(...PAIR);
    expect([result.verdict, stepTexts(result)]).toEqual(['continue', ['shoot M2 near far far far far far far']]);
    expect(result.steps[0]!.why).toMatch(
      /^Repeated marks on M2 \(gantry far from M1, front\) are 1\.8 mm apart although nothing was moved between them; reading explains 0\.9 mm\. Six more shots/,
    );
    expect(stationOf(result, 'M2').state).not.toBe('within');
    expect(codes(result.findings)).toContain('log.scatter');
  });

  test('marks on M1 that differ by more than a misreading: the tube is loose, and is not shifted', () => {
    const result = log(
      'marks: M1\nshots: [0.5 left 0 up]\n',
      'marks: M1\nshots: [4 left 0 up]\n',
      'marks: M1\nshots: {here: [0.5 left 0 up, 3.5 left 0.5 up, 2 right 0 up, 2.5 left 0 up]}\n',
      'marks: M1\nshots: [1 right 2 up]\n',
      'marks: M1\nshots: [2.5 right 3.5 up]\n',
    );
    expect([result.verdict, stepTexts(result)]).toEqual(['blocked', ['repair']]);
    expect(result.steps[0]!.say).toMatch(
      /^Something is loose at the tube\. .*the tube in its holders, and of the block of the first mirror/,
    );
  });

  test('a difference that reading explains is no finding', () => {
    const result = log(M1, m2('0.5 right 0 up', '0.5 right 0 up'), far('0 right 0.5 up'));
    expect(codes(result.findings)).toEqual([]);
    expect(doubtsOf(M1, m2('0.5 right 0 up', '0.5 right 0 up'), far('0 right 0.5 up')).scattering).toBeUndefined();
  });

  test('scatter only after one part: that part is loose, work is blocked, and a care cell clears it', () => {
    const result = log(...LOOSE);
    expect([result.verdict, stepTexts(result)]).toEqual(['blocked', ['repair']]);
    expect(result.steps[0]!.say).toMatch(
      /^Something is loose at M1\. Do not shoot or turn anything\. Take hold of M1:/,
    );
    expect(result.findings.filter(({ code }) => code === 'log.loose').map(message)).toEqual([
      expect.stringMatching(/^M1 is loose: repeated marks on M2 \(gantry far from M1, front\) are \d\.\d mm apart/),
    ]);
    const cleared = log(...LOOSE, result.steps[0]!.cell!);
    expect(cleared.verdict).toBe('continue');
    expect(stepTexts(cleared)).toEqual(['shoot M2 near far']);
    expect(codes(cleared.findings)).not.toContain('log.loose');
  });

  test('care of another part does not clear a loose part', () => {
    for (const other of [
      'care: lens\ndid: replaced\n',
      'care: M3\ndid: tightened\n',
      'care: M1\ndid: cleaned in place\n',
    ])
      expect(log(...LOOSE, other).verdict).toBe('blocked');
  });

  test('a misread mark and a later rejected mark elsewhere do not make a part loose', () => {
    const misread = [
      'marks: M1\nshots: [2 right 1 up]\n',
      'marks: M1\nshots: [2 left 1.5 up]\n',
      'marks: M1\nshots: [2 left 1 up, 2 left 1 up, 2 left 1 up, 2 left 1 up]\n',
    ];
    const evaluation = log(
      'marks: M1\nshots: [0 right 2.5 up]\n',
      'adjust: tube\nshift: 2 mm front 1.75 mm down\n',
      ...misread,
      m2('1 right 0.5 up', '1 left 0.5 down'),
      'marks: M2\nshots: {near: 1 right 2 up}\n',
    );
    expect(codes(evaluation.findings)).not.toContain('log.loose');
    expect(evaluation.verdict).toBe('continue');
  });

  test('a misread mark halfway along a rail leaves no bend once repeats disagree with it', () => {
    const half = (mark: string) => `{at: 410 mm, mark: ${mark}}`;
    const far = (...marks: string[]) => marks.map((mark) => `{at: far, mark: ${mark}}`).join(', ');
    const evaluation = log(
      'marks: M1\nshots: [1 right 0.5 down]\n',
      m2('1.5 left 1 down', '2 left 0 up'),
      `marks: M2\nshots: [${half('2 right 0.5 down')}]\n`,
      `marks: M2\nshots: [{at: near, mark: 2.5 left 1 down}, ${far('1.5 left 0 up')}, ${half('2.5 left 1 down')}]\n`,
      `marks: M2\nshots: [${half('2 left 0.5 down')}, ${far('3 left 0.5 down', '2.5 right 0.5 down', '2.5 left 0 up', '3 left 0 up')}]\n`,
    );
    expect(codes(evaluation.findings)).not.toContain('log.loose');
    expect(evaluation.verdict).toBe('continue');
  });

  test('equal scatter at every station is a worse reading: reported and used, nothing is blocked', () => {
    const coarse = [
      'marks: M1\nshots: [1 right 1 up, 1 left 0.5 down, 0.5 right 1.5 down, 1.5 left 1 up]\n',
      'marks: M2\nshots: {near: [1 right 0 up, 0.5 left 1.5 down, 1 left 1 up], far: [1.5 right 1 down, 1 left 0.5 up, 0 right 1.5 up]}\n',
    ];
    const result = log(...coarse);
    expect(codes(result.findings)).toEqual(['log.reading']);
    expect(result.verdict).toBe('continue');
    expect(doubtsOf(...coarse).noise).toBeGreaterThanOrEqual(2);
    expect(doubtsOf(M1, M2, M3, lens).noise).toBe(1);
  });

  test('a mark outside by a worse reading is no finding at a turn of the next mirror', () => {
    const coarse = [
      'marks: M1\nshots: [1 right 1 up, 1 left 0.5 down, 0.5 right 1.5 down, 1.5 left 1 up]\n',
      'marks: M2\nshots: {near: [1 right 0 up, 0.5 left 1.5 down, 1 left 1 up, 0 right 1 down], far: 2.6 right 0 up}\n',
    ];
    const turned = (...before: string[]) => codes(log(...before, 'adjust: M2\nturn: {B: in 1/16}\n').findings);
    expect(turned(M1, m2('0 right 0 up', '2.6 right 0 up'))).toContain('order.upstream');
    expect(turned(...coarse)).toEqual(['log.reading']);
  });
});

describe('a turn of an eighth or more that moved nothing', () => {
  const OFF = m2('0.5 right 0 up', '5 right 3 up');
  const unmoved = (turn: string, after = OFF) => log(M1, OFF, `adjust: M1\nturn: {${turn}}\n`, after);

  test('a turn without effect is checked by hand and shot again before any further turn', () => {
    const result = unmoved('B: in 1/4');
    expect([stepTexts(result), moves(result)]).toEqual([['check', 'shoot M2 far'], []]);
    expect(result.steps[0]!.say).toMatch(
      /lock nuts of M1 are loose.*it is the one that the log names.*mark its knob with a pen/,
    );
    expect(result.steps[0]!.why).toBe('The turn of B (lower right) of M1 had no effect: the marks on M2 did not move.');
    expect(codes(result.findings)).toEqual(['log.unmoved']);
  });

  test('a turn without effect is detected for two screws known to a fifth', () => {
    const short = MACHINE.replace('near: 130 mm, far: 690 mm', 'near: 100 mm, far: 500 mm').replace(
      'locks: none',
      'doubt: 20 %',
    );
    const marks = m2('0.5 left 1 down', '2.5 right 3.5 down');
    const result = evaluated(
      short,
      LIMITS,
      M1,
      marks,
      'adjust: M1\nlock: loose\n',
      'adjust: M1\nturn: {A: out 1/4}\n',
      'adjust: M1\nturn: {B: in 3/16}\n',
      marks,
    );
    expect(codes(result.findings)).toEqual(['log.unmoved']);
    expect([stepTexts(result), moves(result)]).toEqual([['check', 'shoot M2 far'], []]);
  });

  test('after a second turn without effect the mount is repaired, and nothing is turned', () => {
    const again = 'adjust: M1\nturn: {B: in 3/8}\n';
    const result = log(M1, OFF, 'adjust: M1\nturn: {B: in 1/4}\n', OFF, far('5 right 3 up'), again, OFF);
    for (const cells of [
      result,
      log(M1, OFF, 'adjust: M1\nturn: {B: in 1/4}\n', OFF, far('5 right 3 up'), again, OFF, far('5 right 3 up')),
    ]) {
      expect([cells.verdict, stepTexts(cells)]).toEqual(['blocked', ['repair']]);
      expect(cells.steps[0]!.say).toMatch(/^Turns of M1 had no effect 2 times\. Do not turn further/);
    }
  });

  test('a turn without effect is detected if its places are shot in separate cells, and if it took two cells', () => {
    const turned = (...cells: string[]) => codes(log(M1, OFF, ...cells).findings);
    expect(
      turned('adjust: M1\nturn: {B: in 1/4}\n', 'marks: M2\nshots: {near: 0.5 right 0 up}\n', far('5 right 3 up')),
    ).toEqual(['log.unmoved']);
    expect(turned(...[1, 2].map(() => 'adjust: M1\nturn: {B: in 3/32}\n'), OFF)).toEqual(['log.unmoved']);
    expect(turned('adjust: M1\nturn: {B: in 1/4}\n', 'adjust: M1\nturn: {B: out 1/4}\n', OFF)).toEqual([]);
  });

  test('no turn without effect if the turn was smaller, of a mirror off the path, or the marks moved', () => {
    expect(codes(unmoved('B: in 1/32').findings)).not.toContain('log.unmoved');
    const own = log(M1, OFF, 'adjust: M2\nturn: {B: in 1/4}\n', m2('0.5 left 0.5 up', '4 right 3.5 up'));
    expect(codes(own.findings)).not.toContain('log.unmoved');
    expect(codes(unmoved('B: in 1/8', m2('0 right 0 up', '2.5 right 3 up')).findings)).not.toContain('log.unmoved');
  });
});

describe('a mark that nothing explains', () => {
  const ODD = [M1, M2, far('5 left 0 up')];

  test('an unexplained mark is requested again on fresh, labelled tape; nothing is moved, and nothing is within', () => {
    const result = log(...ODD);
    expect([result.verdict, stepTexts(result), moves(result)]).toEqual([
      'continue',
      ['shoot M2 near far far far far far far'],
      [],
    ]);
    expect(stationOf(result, 'M2').state).toBe('borderline');
    expect(result.unexplained).toBe(1);
  });

  test('an unexplained mark at a new place is requested at that place only', () => {
    const result = log(M1, m2('0.5 right 0 up', '12 left 9 down'));
    expect([stepTexts(result), moves(result)]).toEqual([['shoot M2 far'], []]);
    expect(result.steps[0]!.why).toMatch(
      /is unexplained\. Predicted from the rest of the log: .* on fresh, labelled tape before you turn or shift anything\.$/,
    );
  });

  test('an unexplained mark that the repeat does not confirm was misread and is not used', () => {
    const result = log(...ODD, far('0.5 right 0 up'));
    expect(codes(result.findings)).toEqual(['log.misread']);
    expect(stationOf(result, 'M2').state).toBe('within');
    expect(result.unexplained).toBe(0);
  });

  test('an unexplained mark that the repeat confirms is used, and marks that it contradicts are stale', () => {
    const result = log(M1, M2, M3, lens, m2('5 left 0 up', '5 left 0 up'), m2('5 left 0 up', '5 left 0 up'));
    expect(stationOf(result, 'M2').requirements[0]!.value).toBeCloseTo(5, 6);
    expect([stationOf(result, 'M3').state, stationOf(result, 'lens').state, stationOf(result, 'M1').state]).toEqual([
      'stale',
      'stale',
      'within',
    ]);
  });

  test('no mark is unexplained after a logged event', () => {
    expect(codes(log(M1, M2, 'event: collision\n', M1, m2('5 left 0 up', '5 left 1 up')).findings)).not.toContain(
      'log.unexpected',
    );
  });
});

test('a limit finer than tape can show is reported at the limit, with the number of shots that it needs', () => {
  const fine = (of: string) =>
    evaluated(MACHINE, LIMITS.replace('M1: {centre: 3 mm}', `M1: {centre: ${of}}`), M1)
      .findings.filter(({ code }) => code === 'limits.fine')
      .map(({ facts }) => facts['shots']);
  expect(fine('0.2 mm')).toEqual(['8']);
  expect(fine('1 mm')).toEqual([]);
});

test('a single tape on the bed far out of plumb is repeated before anything is dismantled', () => {
  const PLACES = [
    'near, M3: near',
    'far, M3: near',
    'near, M3: far',
    'far, M3: far',
    '410 mm, M3: near',
    'near, M3: 490 mm',
    '410 mm, M3: far',
    'far, M3: 490 mm',
  ].map((place) => `M2: ${place}`);
  const plumb = LIMITS.replace('lens: {centre: 1.5 mm}', 'lens: {centre: 1.5 mm, plumb: 12 mrad}');
  const bed = (near: string, low: string) =>
    `marks: lens\nshots:\n${PLACES.map((place) => `  - {at: here, with: {${place}}, mark: centre}\n`).join('')}  - {at: here, height: 20 mm, mark: ${near}}\n  - {at: here, height: 150 mm, mark: ${low}}\n`;
  const once = evaluated(MACHINE, plumb, M1, M2, M3, bed('3.5 left 2 front', '4.5 right 2 front'));
  expect(once.verdict).toBe('continue');
  expect(stepTexts(once)).toEqual(['shoot lens here/M2=near/M3=near/height=20 here/M2=near/M3=near/height=150']);
  const often = evaluated(
    MACHINE,
    plumb,
    M1,
    M2,
    M3,
    ...Array.from({ length: 4 }, () => bed('3.5 left 2 front', '4.5 right 2 front')),
  );
  expect(often.verdict).toBe('blocked');
});

describe('a tape on the bed that nothing explains', () => {
  const plumb = LIMITS.replace('lens: {centre: 1.5 mm}', 'lens: {centre: 1.5 mm, plumb: 12 mrad}');
  const bed = (low: string, high: string) =>
    `marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: ${low} 40 front}\n  - {at: here, height: 120 mm, mark: ${high} 40 front}\n`;
  const after = (...cells: string[]) =>
    evaluated(MACHINE, plumb, M1, M2, M3, lens, bed('7 right', '7 right'), ...cells);
  const ODD = bed('2 right', '5.5 right');

  test('an unexplained tape on the bed is laid and shot again', () => {
    const result = after(ODD);
    expect([result.unexplained, stepTexts(result), moves(result)]).toEqual([
      1,
      ['shoot lens here/M2=near/M3=near/height=20 here/M2=near/M3=near/height=120'],
      [],
    ]);
  });

  test('a tape was misread if the next one has the predicted tilt, wherever it lies', () => {
    const result = after(ODD, bed('1 left', '0.5 left'));
    expect([result.unexplained, codes(result.findings)]).toEqual([0, ['log.misread']]);
    expect(stationOf(result, 'lens').state).toBe('within');
  });

  test('a tape whose marks lie on no line is not used: it was moved', () => {
    const crooked =
      'marks: lens\nshots:\n  - {at: here, height: 20 mm, mark: centre}\n  - {at: here, height: 60 mm, mark: 9 right 0 rear}\n  - {at: here, height: 120 mm, mark: centre}\n';
    expect(after(crooked, crooked).unexplained).toBe(2);
  });

  test('a tape is used if the next one has the same tilt, wherever it lies', () => {
    const result = after(ODD, bed('1 left', '2 right'));
    expect([result.unexplained, stationOf(result, 'lens').state]).toEqual([0, 'incomplete']);
    expect(stepTexts(result)).toEqual(['shoot lens here/M2=near/M3=near here/M2=far/M3=far']);
  });
});
