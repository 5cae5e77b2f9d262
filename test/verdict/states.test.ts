/**
 * Unlimited, unread, stale, incomplete: which moves make which marks stale (workbook format 1, "States of a station").
 */
import { describe, expect, test } from 'vitest';
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
const ALL = [M1, M2, M3, lens];

test('without shots every station is unread, and M1 comes first', () => {
  const evaluation = log();
  expect(states(evaluation)).toBe('M1 unread, M2 unread, M3 unread, lens unread');
  expect(stepTexts(evaluation)).toEqual(['shoot M1 here']);
  expect(evaluation.verdict).toBe('continue');
});

test('a machine cell with errors is to be fixed; no second one is requested', () => {
  expect(evaluatedWithMistakes(MACHINE.replace('leg: 90 mm', 'leg: 90 furlong'), LIMITS, M1).steps[0]!.say).toContain(
    'Fix the machine cell first',
  );
  expect(evaluatedWithMistakes(LIMITS).steps[0]!.say).toContain('Begin it with a machine cell.');
});

test('all marks centred: within, and the machine can be signed off', () => {
  const evaluation = log(...ALL);
  expect(states(evaluation)).toBe('M1 within, M2 within, M3 within, lens within');
  expect(evaluation.verdict).toBe('within');
  expect(stepTexts(evaluation)).toEqual(['release']);
});

test('stations without limits are listed before the sign-off, as not judged', () => {
  const evaluation = evaluatedWithMistakes(MACHINE, LIMITS.replace(/^ {2}lens: .*\n/m, ''), M1, M2, M3);
  expect([evaluation.verdict, evaluation.steps[0]!.kind]).toEqual(['within', 'release']);
  expect(evaluation.steps[0]!.why).toContain('lens has no limits');
  expect(log(...ALL).steps[0]!.why).toMatch(/^Plumb not measured: lens has no plumb limit/);
  expect(
    evaluated(
      MACHINE,
      LIMITS.replace('lens: {centre: 1.5 mm}', 'lens: {centre: 1.5 mm, plumb: 15 mrad}'),
      ...ALL,
      'marks: lens\nshots:\n  - {height: 20 mm, mark: centre}\n  - {height: 150 mm, mark: centre}\n',
    ).steps[0]!.why,
  ).toBeUndefined();
});

describe('signed off: nothing is left to do', () => {
  test.each([
    ['at once', ''],
    ['a note', 'note: coffee\n'],
    ['checks', 'checks: end of day\ndone: [covers]\n'],
    ['arithmetic', 'work: one\ntwo: 1 mm\n'],
    ['the machine cell again, unchanged', MACHINE],
    ['the limits cell again', LIMITS],
    ['a second release', 'release: in service\nby: rs\n'],
  ])('%s follows', (_, cell) => {
    const evaluation = log(...ALL, 'release: in service\nby: kt\n', ...(cell === '' ? [] : [cell]));
    expect([evaluation.verdict, stepTexts(evaluation)]).toEqual(['within', []]);
  });

  test.each([
    ['a screw that is turned', 'adjust: M3\nturn: {B: in 1/8}\n'],
    ['an optic that is looked at', 'care: M1\ndid: inspected\n'],
    ['power', 'power: lens\nreading: 68 W\n'],
    ['an event', 'event: collision\n'],
  ])('%s begins another visit: no mark of the last one is fresh, and it needs its own release', (_, cell) => {
    const begun = [...ALL, 'release: in service\nby: kt\n', cell];
    expect(stepTexts(log(...begun))).toEqual(['shoot M1 here']);
    expect(codes(log(...begun).findings)).toEqual(['session.missing']);
    expect(stepTexts(log(...begun, ...ALL))).toEqual(['release']);
  });
});

test('a release without a name counts, and is reported at `by`', () => {
  const spanned = (cell: string) =>
    log(...ALL, cell).findings.map(({ code, span }) => [code, `---\n${cell}`.slice(0, span.start)]);
  expect(spanned('release: in service\n')).toEqual([['by.missing', '---\nrelease: ']]);
  expect(spanned('release: in service\nby: \n')).toEqual([['by.missing', expect.stringMatching(/\nby$/)]]);
  expect(spanned('release: withdrawn\nby: "  "\n')).toEqual([['by.missing', expect.stringMatching(/\nby: $/)]]);
  expect(stepTexts(log(...ALL, 'release: in service\nby: \n'))).toEqual([]);
});

test.each([
  ['a screw of M1', 'adjust: M1\nturn: {B: in 1/4}\n', 'M1 within, M2 stale, M3 stale, lens stale'],
  ['a screw of M2', 'adjust: M2\nturn: {B: in 1/4}\n', 'M1 within, M2 within, M3 stale, lens stale'],
  ['a screw of M3', 'adjust: M3\nturn: {B: in 1/4}\n', 'M1 within, M2 within, M3 within, lens stale'],
  ['the tube', 'adjust: tube\nshift: 1 mm up\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['the block of M1', 'adjust: M1\nshift: 1 mm up\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['the lock of M2', 'adjust: M2\nlock: tight\n', 'M1 within, M2 within, M3 stale, lens stale'],
  ['M2 taken out', 'care: M2\ndid: removed and cleaned\n', 'M1 within, M2 within, M3 stale, lens stale'],
  ['the lens taken out', 'care: lens\ndid: removed and cleaned\n', 'M1 within, M2 within, M3 within, lens within'],
  ['M2 tightened', 'care: M2\ndid: tightened\n', 'M1 within, M2 within, M3 stale, lens stale'],
  ['the lens tightened', 'care: lens\ndid: tightened\n', 'M1 within, M2 within, M3 within, lens within'],
  ['the lens replaced', 'care: lens\ndid: replaced\n', 'M1 within, M2 within, M3 within, lens within'],
  ['M2 wiped in place', 'care: M2\ndid: cleaned in place\n', 'M1 within, M2 within, M3 within, lens within'],
  ['the machine moved', 'event: moved\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['a new visit', 'session: autumn\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['the machine cell again, unchanged', MACHINE, 'M1 within, M2 within, M3 within, lens within'],
  ['a machine cell with another leg', MACHINE.replace('90 mm', '95 mm'), 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['a note', 'note: coffee\n', 'M1 within, M2 within, M3 within, lens within'],
])('after %s', (_, cell, expected) => {
  expect(states(log(...ALL, cell))).toBe(expected);
});

test('a refitted lens keeps its plumb, and makes stations after it stale', () => {
  const machine = MACHINE.replace('mounts:', '  nozzle: {leg: 60 mm, aperture: 6 mm}\nmounts:');
  const limits = LIMITS.replace(
    'lens: {centre: 1.5 mm}',
    'lens: {centre: 1.5 mm, plumb: 10 mrad}\n  nozzle: {centre: 2 mm}',
  );
  const plumb = 'marks: lens\nshots:\n  - {height: 20 mm, mark: centre}\n  - {height: 150 mm, mark: centre}\n';
  const nozzle = 'marks: nozzle\nshots:\n  - {mark: centre}\n  - {with: {M2: far, M3: far}, mark: centre}\n';
  const left = (...cells: string[]) => evaluated(machine, limits, ...ALL, plumb, nozzle, ...cells);
  expect(states(left())).toBe('M1 within, M2 within, M3 within, lens within, nozzle within');
  const out = left('care: lens\ndid: removed and cleaned\n');
  expect(states(out)).toBe('M1 within, M2 within, M3 within, lens within, nozzle stale');
  expect(stepTexts(out)).toEqual(['shoot nozzle here/M2=near/M3=near here/M2=far/M3=far']);
});

describe('the reason of stale marks has the cell that moved them, and requests new ones', () => {
  test.each([
    ['event: new tube\n', 'The marks on M1 are stale: new tube (cell 7). Shoot M1 again.'],
    ['session: autumn\n', 'The marks on M1 are stale: a new session (cell 7). Shoot M1 again.'],
    [
      MACHINE.replace('90 mm', '95 mm'),
      'The marks on M1 are stale: the machine cell was changed (cell 7). Shoot M1 again.',
    ],
    [
      'adjust: M1\nturn: {B: in 1/4}\n',
      'The marks on M2 are stale: screw B of M1 was turned in by 1/4 turn (cell 7). Shoot M2 again.',
    ],
    [
      'adjust: M2\nlock: tight\n',
      'The marks on M3 are stale: the lock nuts of M2 were tightened (cell 7). Shoot M3 again.',
    ],
    [
      'care: M2\ndid: removed and cleaned\n',
      'The marks on M3 are stale: M2 was removed and cleaned (cell 7). Shoot M3 again.',
    ],
  ])('%j', (cell, why) => {
    expect(log(...ALL, cell).steps[0]!.why).toBe(why);
  });

  test('work after a release begins a visit: earlier marks are stale because of the visit', () => {
    const released = log(...ALL, 'release: in service\nby: ana\n', 'adjust: M2\nturn: {B: in 1/4}\n');
    expect(released.steps.map(({ why }) => why)).toContain(
      'The marks on M1 are stale: a new visit (cell 8). Shoot M1 again.',
    );
  });
});

describe('a cell with errors makes every station stale that it may affect', () => {
  test.each([
    ['adjust: M2\nturn: {B: sideways}\n', 'M1 within, M2 stale, M3 stale, lens stale'],
    ['adjust: M9\nturn: {B: in 1/4}\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
    ['event: [\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
    ['marks: M2\nshots: {near: rubbish, far: rubbish}\n', 'M1 within, M2 stale, M3 within, lens within'],
    ['marks: M2\nshots: {near: centre, far: 8}\n', 'M1 within, M2 incomplete, M3 within, lens within'],
  ])('%j', (cell, expected) => {
    expect(states(evaluatedWithMistakes(MACHINE, LIMITS, ...ALL, cell))).toBe(expected);
  });
});

describe('a station is fresh at its shortest and longest stop, and at two opposite corners', () => {
  test.each([
    ['M2 near alone', 'marks: M2\nshots: {near: centre}\n', 'M2', 'incomplete', 'shoot M2 far'],
    [
      'M2 near with its height not read',
      'marks: M2\nshots: {near: 1 right, far: centre}\n',
      'M2',
      'incomplete',
      'shoot M2 near',
    ],
    [
      'M3 near and far with the gantry near',
      'marks: M3\nshots: {near: centre, far: centre}\n',
      'M3',
      'incomplete',
      'shoot M3 near/M2=far',
    ],
    [
      'M3 on the other diagonal',
      'marks: M3\nshots:\n  - {at: far, mark: centre}\n  - {at: near, with: {M2: far}, mark: centre}\n',
      'M3',
      'borderline',
      'shoot M3 far/M2=far',
    ],
  ])('%s', (_, cell, name, state, next) => {
    const evaluation = log(M1, ...(name === 'M3' ? [M2] : []), cell);
    expect(stationOf(evaluation, name).state).toBe(state);
    expect(stepTexts(evaluation)[0]).toBe(next);
  });
});

describe('a station without limits is neither within nor borderline, whatever its marks', () => {
  const without = LIMITS.replace(/^ {2}lens: .*\n/m, '');
  test.each([
    ['never marked', []],
    ['marks 9 mm off', ['marks: lens\nshots:\n  - {at: here, mark: 9 left}\n']],
    ['marks in the middle', [lens]],
    ['marks that something moved since', [lens, 'adjust: M3\nturn: {B: in 1/4}\n']],
  ])('%s', (_, cells) => {
    expect(stationOf(evaluatedWithMistakes(MACHINE, without, M1, M2, M3, ...cells), 'lens').state).toBe('unlimited');
  });
});

test('no limits: blocked, never within', () => {
  const evaluation = evaluatedWithMistakes(MACHINE, ...ALL);
  expect(evaluation.verdict).toBe('blocked');
  expect(evaluation.stations.every(({ state }) => state !== 'within')).toBe(true);
});

test('no machine: blocked', () => {
  expect(evaluatedWithMistakes(LIMITS).verdict).toBe('blocked');
});
