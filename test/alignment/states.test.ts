/** Fresh, stale, unread: what moves which marks (workbook format 1, "States of a station"). */
import { describe, expect, test } from 'vitest';
import { CENTRED, evaluatedWithMistakes, LIMITS, log, MACHINE, states, stationOf, told } from './log.ts';

const { M1, M2, M3, lens } = CENTRED;
const ALL = [M1, M2, M3, lens];

test('nothing is shot: everything is unread, and M1 comes first', () => {
  const found = log();
  expect(states(found)).toBe('M1 unread, M2 unread, M3 unread, lens unread');
  expect(told(found)).toEqual(['shoot M1 here']);
  expect(found.verdict).toBe('continue');
});

test('a machine cell that cannot be read is what is to be mended, not one more to be written', () => {
  expect(evaluatedWithMistakes(MACHINE.replace('leg: 90 mm', 'leg: 90 furlong'), LIMITS, M1).steps[0]!.say).toContain('The machine cell has a mistake in it');
  expect(evaluatedWithMistakes(LIMITS).steps[0]!.say).toContain('Begin the workbook with a machine cell.');
});

test('everything is shot and central: within, and the machine can be signed off', () => {
  const found = log(...ALL);
  expect(states(found)).toBe('M1 within, M2 within, M3 within, lens within');
  expect(found.verdict).toBe('within');
  expect(told(found)).toEqual(['release']);
});

test('what has no limits is named before the machine is signed off: nothing is said of it', () => {
  const found = evaluatedWithMistakes(MACHINE, LIMITS.replace(/^ {2}lens: .*\n/m, ''), M1, M2, M3);
  expect([found.verdict, found.steps[0]!.kind]).toEqual(['within', 'release']);
  expect(found.steps[0]!.why).toContain('lens has no limits');
  expect(log(...ALL).steps[0]!.why).toBeUndefined();
});

describe('signed off: nothing is left to do', () => {
  test.each([
    ['at once', ''],
    ['a note', 'note: coffee\n'],
    ['an optic that is looked at', 'care: M1\ndid: inspected\n'],
    ['an optic that is wiped in place', 'care: M1\ndid: cleaned in place\n'],
    ['power', 'power: lens\nreading: 68 W\n'],
    ['checks', 'checks: end of day\ndone: [covers]\n'],
    ['arithmetic', 'work: one\ntwo: 1 mm\n'],
    ['the machine cell again, unchanged', MACHINE],
    ['the limits cell again', LIMITS],
    ['a station that is shot again, and is within', M1],
    ['a second release', 'release: in service\nby: rs\n'],
  ])('%s follows', (_, cell) => {
    const found = log(...ALL, 'release: in service\nby: kt\n', ...(cell === '' ? [] : [cell]));
    expect([found.verdict, told(found)]).toEqual(['within', []]);
  });

  test('but a station that is moved after it is shot again, and the machine is signed off again', () => {
    const moved = [...ALL, 'release: in service\nby: kt\n', 'adjust: M3\nturn: {B: in 1/8}\n'];
    expect(told(log(...moved))).toEqual([expect.stringMatching(/^shoot lens/)]);
    expect(told(log(...moved, lens))).toEqual(['release']);
  });
});

test('a release that nobody has put a name to is one, and is told so where the name belongs', () => {
  const spanned = (cell: string) => log(...ALL, cell).findings.map(({ code, span }) => [code, `---\n${cell}`.slice(0, span.start)]);
  expect(spanned('release: in service\n')).toEqual([['by.missing', '---\nrelease: ']]);
  expect(spanned('release: in service\nby: \n')).toEqual([['by.missing', expect.stringMatching(/\nby$/)]]);
  expect(spanned('release: withdrawn\nby: "  "\n')).toEqual([['by.missing', expect.stringMatching(/\nby: $/)]]);
  expect(told(log(...ALL, 'release: in service\nby: \n'))).toEqual([]);
});

test.each([
  ['a screw of M1', 'adjust: M1\nturn: {B: in 1/4}\n', 'M1 within, M2 stale, M3 stale, lens stale'],
  ['a screw of M2', 'adjust: M2\nturn: {B: in 1/4}\n', 'M1 within, M2 within, M3 stale, lens stale'],
  ['a screw of M3', 'adjust: M3\nturn: {B: in 1/4}\n', 'M1 within, M2 within, M3 within, lens stale'],
  ['the tube', 'adjust: tube\nshift: 1 mm up\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['the block of M1', 'adjust: M1\nshift: 1 mm up\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['the lock of M2', 'adjust: M2\nlock: tight\n', 'M1 within, M2 within, M3 stale, lens stale'],
  ['M2 taken out', 'care: M2\ndid: removed and cleaned\n', 'M1 within, M2 within, M3 stale, lens stale'],
  ['the lens taken out', 'care: lens\ndid: removed and cleaned\n', 'M1 within, M2 within, M3 within, lens stale'],
  ['M2 wiped in place', 'care: M2\ndid: cleaned in place\n', 'M1 within, M2 within, M3 within, lens within'],
  ['the machine moved', 'event: moved\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['a new visit', 'session: autumn\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['the machine cell again, unchanged', MACHINE, 'M1 within, M2 within, M3 within, lens within'],
  ['a machine cell with another leg', MACHINE.replace('90 mm', '95 mm'), 'M1 stale, M2 stale, M3 stale, lens stale'],
  ['a note', 'note: coffee\n', 'M1 within, M2 within, M3 within, lens within'],
])('after %s', (_, cell, expected) => {
  expect(states(log(...ALL, cell))).toBe(expected);
});

describe('a cell that cannot be read counts as moved as far as it may reach', () => {
  test.each([
    ['adjust: M2\nturn: {B: sideways}\n', 'M1 within, M2 stale, M3 stale, lens stale'],
    ['adjust: M9\nturn: {B: in 1/4}\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
    ['event: [\n', 'M1 stale, M2 stale, M3 stale, lens stale'],
    ['marks: M2\nshots: {near: rubbish, far: rubbish}\n', 'M1 within, M2 stale, M3 within, lens within'],
    ['marks: M2\nshots: {near: centre, far: 8}\n', 'M1 within, M2 stale, M3 within, lens within'],
  ])('%j', (cell, expected) => {
    expect(states(evaluatedWithMistakes(MACHINE, LIMITS, ...ALL, cell))).toBe(expected);
  });
});

describe('a station is fresh at its shortest and longest stop, and at two opposite corners', () => {
  test.each([
    ['M2 near alone', 'marks: M2\nshots: {near: centre}\n', 'M2', 'stale', 'shoot M2 far'],
    ['M2 near with its height not read', 'marks: M2\nshots: {near: 1 right, far: centre}\n', 'M2', 'stale', 'shoot M2 near'],
    ['M3 near and far with the gantry near', 'marks: M3\nshots: {near: centre, far: centre}\n', 'M3', 'stale', 'shoot M3 near/M2=far'],
    ['M3 on the other diagonal', 'marks: M3\nshots:\n  - {at: far, mark: centre}\n  - {at: near, with: {M2: far}, mark: centre}\n', 'M3', 'within', 'shoot lens here/M2=near/M3=near here/M2=far/M3=far'],
  ])('%s', (_, cell, name, state, next) => {
    const found = log(M1, ...(name === 'M3' ? [M2] : []), cell);
    expect(stationOf(found, name).state).toBe(state);
    expect(told(found)[0]).toBe(next);
  });
});

test('loose screws are not within; tightening asks for another shot', () => {
  const found = log('adjust: M1\nlock: loose\n', ...ALL);
  expect(states(found)).toBe('M1 within, M2 within, M3 within, lens within');
  expect(found.verdict).toBe('continue');
  expect(told(found)).toEqual(['lock M1 tight', 'shoot M2 near far']);
});

test('no limits: blocked, never within', () => {
  const found = evaluatedWithMistakes(MACHINE, ...ALL);
  expect(found.verdict).toBe('blocked');
  expect(found.stations.every(({ state }) => state !== 'within')).toBe(true);
});

test('no machine: blocked', () => {
  expect(evaluatedWithMistakes(LIMITS).verdict).toBe('blocked');
});
