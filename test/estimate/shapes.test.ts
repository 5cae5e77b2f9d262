/** Double marks and crescents: named at once, never within, looked into before anything is turned. */
import { describe, expect, test } from 'vitest';
import { worstShape, shapeDoubts } from '../../src/estimate/shapes.ts';
import { pathTo, type Evaluation, type Mark, type Reading } from '../../src/model/index.ts';
import { CENTRED, codes, log, stationOf, stepTexts } from '../support/log.ts';

const BEFORE = [CENTRED.M1];
const M2 = (near: string, far = 'centre') => `marks: M2\nshots: [{at: near, mark: ${near}}, {at: far, mark: ${far}}]\n`;
const MIDDLE = 'marks: M2\nshots: [{at: 410 mm, mark: centre}]\n';
const DOUBLE = '0 right 0 up shape double';
const CRESCENT = '0 right 0.5 up shape crescent';
const M3 =
  'marks: M3\nshots:\n  - {at: near, mark: 0 right 0 up shape crescent}\n  - {at: far, with: {M2: far}, mark: 0.5 right 0 up shape crescent}\n';

const placed = ({ findings }: Evaluation) =>
  findings
    .filter(({ code }) => code.startsWith('mark.'))
    .map(({ code, cell, facts }) => `${cell} ${code}${facts['place']}`);

describe('the form of a shot', () => {
  test.each<[Mark[], ReturnType<typeof worstShape>]>([
    [[{}], {}],
    [[{ shape: 'round', size: 4 }, { size: 5 }], { shape: 'round', size: 5 }],
    [[{ shape: 'double' }, { shape: 'crescent' }, { shape: 'round' }], { shape: 'double' }],
    [
      [
        { shape: 'oval', size: 6 },
        { shape: 'crescent', size: 3 },
      ],
      { shape: 'crescent', size: 6 },
    ],
  ])('%j is %j', (marks, form) => expect(worstShape(marks)).toEqual(form));
});

describe('readings in doubt by shape', () => {
  const reading = (cell: number, far: boolean, shape?: Reading['shape'], height = 0): Reading => ({
    at: far ? 'far' : 'near',
    with: {},
    carriages: { M2: far ? 690 : 130 },
    height,
    right: 0,
    up: 0,
    u: 0.2,
    none: false,
    count: 1,
    cell,
    path: pathTo('shots'),
    ...(shape && { shape }),
  });
  const doubts = (...readings: Reading[]) =>
    shapeDoubts(readings).map(({ cell, at, height }) => `${cell} ${at}${height === 0 ? '' : ` ${height}`}`);

  test('the newest cell of a place counts, and each place by itself', () => {
    expect(doubts(reading(1, false, 'double'), reading(1, true))).toEqual(['1 near']);
    expect(doubts(reading(1, false, 'double'), reading(2, false, 'round'))).toEqual([]);
    expect(doubts(reading(1, false, 'double'), reading(2, false))).toEqual([]);
    expect(doubts(reading(1, false, 'double'), reading(2, true, 'crescent'))).toEqual(['1 near', '2 far']);
    expect(doubts(reading(1, false), reading(2, false, 'crescent'))).toEqual(['2 near']);
    expect(doubts(reading(1, false, 'oval'), reading(1, true, 'round'))).toEqual([]);
  });

  test('one doubtful shot of a place in a cell is enough', () => {
    expect(doubts(reading(1, false, 'double'), reading(1, false, 'round'))).toEqual(['1 near']);
  });

  test('tapes below the lens are one place at whatever heights', () => {
    expect(doubts(reading(1, false, 'double', 20), reading(2, false, undefined, 40))).toEqual([]);
    expect(doubts(reading(1, false, 'double', 20), reading(2, false))).toEqual(['1 near 20']);
  });
});

describe('a double mark', () => {
  test('a double mark is reported at its shot, with its place', () => {
    expect(placed(log(...BEFORE, M2(DOUBLE)))).toEqual(['3 mark.double (gantry near M1, rear)']);
    expect(placed(log('marks: M1\nshots: [1 right, 1 right shape double]\n'))).toEqual(['2 mark.double']);
  });

  test('a double mark prevents its station from being within, and nothing else', () => {
    const evaluation = log(...BEFORE, MIDDLE, M2(DOUBLE));
    expect([stationOf(evaluation, 'M1').state, stationOf(evaluation, 'M2').state]).toEqual(['within', 'borderline']);
    expect(stationOf(evaluation, 'M2').probability).toBeGreaterThan(0.9);
  });

  test('a double mark is inspected, and its place shot again on fresh tape', () => {
    const evaluation = log(...BEFORE, M2(DOUBLE));
    expect([evaluation.verdict, stepTexts(evaluation)]).toEqual(['continue', ['check', 'shoot M2 near']]);
    expect(evaluation.steps[0]!.say).toMatch(/inspect: M1 \(a crack, or an optic loose in its mount\); the tube \(/);
    expect(evaluation.steps[1]!.say).toMatch(/^Fresh tape/);
    expect(evaluation.expected).toHaveLength(1);
  });

  test('a double mark before any mirror comes from the tube', () => {
    const {
      steps: [look],
    } = log('marks: M1\nshots: 0 right 0 up shape double\n');
    expect(look).toMatchObject({ kind: 'check', items: [expect.stringMatching(/lowest mode/)] });
  });

  test('a double mark outside its limits causes no turn, and missing places are shot with it', () => {
    expect(stepTexts(log(...BEFORE, M2('1 right 0 up shape double', '5 right 1 up')))).toEqual([
      'check',
      'shoot M2 near',
    ]);
    expect(stepTexts(log(...BEFORE, 'marks: M2\nshots: {near: 0 right 0 up shape double}\n'))).toEqual([
      'check',
      'shoot M2 near far',
    ]);
    expect(stepTexts(log(...BEFORE, M2('1 right 0 up', '5 right 1 up')))[0]).toMatch(/^turn/);
  });

  test('a double mark is cleared by another mark at its place', () => {
    const evaluation = log(...BEFORE, MIDDLE, M2(DOUBLE), 'marks: M2\nshots: {near: 0 right 0 up}\n');
    expect(stationOf(evaluation, 'M2').state).toBe('within');
    expect(stepTexts(evaluation)[0]).toMatch(/^shoot M3/);
    expect(codes(evaluation.findings)).toContain('mark.double');
  });
});

describe('a crescent', () => {
  test('a crescent reports its missing side, and what the beam passes', () => {
    const evaluation = log(...BEFORE, CENTRED.M2, M3);
    expect(placed(evaluation)).toEqual([
      '4 mark.crescent (head near M2, left)',
      '4 mark.crescent (gantry far from M1, front; head far from M2, right)',
    ]);
    expect(stationOf(evaluation, 'M3').state).toBe('borderline');
    expect(stepTexts(evaluation)).toEqual(['check', 'shoot M3 near/M2=near far/M2=far']);
    expect(evaluation.steps[0]!.say).toMatch(/passes before M3, M2 first \(.* on the missing side of the mark/);
  });

  test('a crescent beside a double mark: both causes are inspected', () => {
    const evaluation = log(...BEFORE, M2(DOUBLE, `${CRESCENT.replace(' shape', ' size 9 mm shape')}`));
    expect(placed(evaluation)).toEqual([
      '3 mark.double (gantry near M1, rear)',
      '3 mark.crescent (gantry far from M1, front)',
    ]);
    expect(evaluation.steps[0]).toMatchObject({ kind: 'check', items: { length: 3 } });
    expect(stepTexts(evaluation)[1]).toBe('shoot M2 near far');
  });
});

test('a doubtful shape on the bed below the lens prevents plumb from being within', () => {
  const bed = (shape: string) =>
    `marks: lens\nshots:\n  - {height: 20 mm, mark: 1 right 0 rear${shape}}\n  - {height: 150 mm, mark: 1 right 0 rear}\n`;
  const all = [CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens];
  expect(stationOf(log(...all, bed('')), 'lens').state).toBe('within');
  const evaluation = log(...all, bed(' shape double'));
  expect(stationOf(evaluation, 'lens').state).toBe('borderline');
  expect(stepTexts(evaluation)).toEqual([
    'check',
    'shoot lens here/M2=near/M3=near/height=20 here/M2=near/M3=near/height=150',
  ]);
});
