/** The order of work: what a release, a shot or a turn is told, and when it is not. Copy a line to add a case. */
import { describe, expect, test } from 'vitest';
import { bookOf } from '../language/workbook.ts';
import { fixesAt, type Change } from '../../src/language/index.ts';
import { CENTRED, codes, evaluated, LIMITS, log, MACHINE } from './log.ts';

const SESSION = 'session: spring\ndate: 2026-03-07\n';
const CHECKS = 'checks: make safe\ndone: [eyewear]\n';
const RELEASE = 'release: in service\n';
const EVERYTHING = [CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens];
const MINDFUL = MACHINE.replace('mounts:', 'care: {M2: every 3 months}\npulse: {power: 20 %, time: 200 ms}\nmounts:');
const OUT = 'care: lens\ndid: removed and cleaned\n';
const REFIT = 'care: lens\ndid: inspected\nrefit: {flat side: down, ring: snug, witness: lined up, hose: refitted}\n';

const CASES: readonly (readonly [code: string, wrong: readonly string[], right: readonly string[]])[] = [
  ['fire.unchecked', [SESSION, CENTRED.M1], [SESSION, CHECKS, CENTRED.M1]],
  ['fire.unchecked', [SESSION, CHECKS, CENTRED.M1, SESSION, CENTRED.M1], [CENTRED.M1]],
  ['fire.pulse', ['marks: M1\nshots: centre\npulse: {power: 25 %}\n'], ['marks: M1\nshots: centre\npulse: {power: 20 %, time: 200 ms}\n']],
  ['fire.pulse', ['marks: M1\nshots: centre\npulse: {time: 300 ms}\n'], ['marks: M1\nshots: centre\npulse: {time: 100 ms}\n']],
  ['fire.tape', ['marks: M1\nshots: centre\ntape: reused\n'], ['marks: M1\nshots: centre\ntape: fresh\n']],
  ['order.upstream', ['marks: M2\nshots: {near: 5 right 0 up, far: 5 right 0 up}\n', 'adjust: M2\nturn: {A: in 1/4}\n'], [CENTRED.M2, 'adjust: M2\nturn: {A: in 1/4}\n']],
  ['order.upstream', ['marks: M2\nshots: {near: 0 right 0 up, far: 1.9 right 1.9 up}\n', 'adjust: M2\nturn: {A: in 1/4}\n'], ['marks: M2\nshots: {near: 5 right 0 up, far: 5 right 0 up}\n', 'adjust: M2\nturn: {A: in 1/4, B: in 1/4, C: in 1/4}\n']],
  ['release.loose', [...EVERYTHING, 'adjust: M1\nlock: loose\n', RELEASE], [...EVERYTHING, 'adjust: M1\nlock: loose\n', 'release: withdrawn\n']],
  ['release.locked', [...EVERYTHING, 'adjust: M1\nlock: tight\n', RELEASE], ['adjust: M1\nlock: tight\n', ...EVERYTHING, RELEASE]],
  ['release.removed', [...EVERYTHING, OUT, REFIT, RELEASE], [OUT, ...EVERYTHING, REFIT, RELEASE]],
  ['release.stale', [...EVERYTHING, 'event: collision\n', RELEASE], ['event: collision\n', ...EVERYTHING, RELEASE]],
  ['release.stale', [CENTRED.M1, RELEASE], [...EVERYTHING, RELEASE]],
  ['release.corners', [...EVERYTHING.slice(0, 3), 'marks: lens\nshots: centre\n', RELEASE], [...EVERYTHING, RELEASE]],
  ['release.outside', ['marks: M1\nshots: 5 right 0 up\n', ...EVERYTHING.slice(1), RELEASE], [...EVERYTHING, RELEASE]],
  ['release.refit', [OUT, ...EVERYTHING, RELEASE], [OUT, ...EVERYTHING, REFIT, RELEASE]],
  ['care.overdue', ['care: M2\ndid: inspected\ndate: 2026-01-10\n', ...EVERYTHING, 'release: in service\ndate: 2026-04-11\n'], ['care: M2\ndid: inspected\ndate: 2026-01-10\n', ...EVERYTHING, 'release: in service\ndate: 2026-04-10\n']],
];

test.each(CASES)('%s: %j, and not %j', (code, wrong, right) => {
  expect(codes(evaluated(MINDFUL, LIMITS, ...wrong).findings)).toContain(code);
  expect(codes(evaluated(MINDFUL, LIMITS, ...right).findings)).not.toContain(code);
});

describe('a fix that is offered', () => {
  const FIXED = CASES.filter(([code]) => !['fire.pulse', 'fire.tape', 'order.upstream'].includes(code));
  test.each(FIXED)('makes %s silent: %j', (code, wrong) => {
    const text = [MINDFUL, LIMITS, ...wrong].join('---\n');
    const own = fixesAt(bookOf(text), 0, text.length).filter(({ finding, title }) => finding?.code === code && !title.startsWith('It is meant so'));
    expect(own.length).toBeGreaterThan(0);
    for (const { changes, title } of own) expect(bookOf(changed(text, changes)).findings().map((finding) => finding.code), title).not.toContain(code);
  });
});

function changed(text: string, changes: readonly Change[]): string {
  return changes.toSorted((one, other) => other.start - one.start).reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
}

test('a meniscus has no flat side to note', () => {
  const meniscus = MINDFUL.replace('focal: 50.8 mm', 'focal: 50.8 mm, shape: meniscus');
  const noted = 'care: lens\ndid: inspected\nrefit: {ring: snug, witness: lined up, hose: refitted}\n';
  expect(codes(evaluated(meniscus, LIMITS, OUT, ...EVERYTHING, noted, RELEASE).findings)).not.toContain('release.refit');
});

test('a rule that the workshop turned off is silent, and its reason is kept', () => {
  const found = evaluated(MINDFUL, `${LIMITS}rules: {fire.tape: {off: we label the marks}}\n`, 'marks: M1\nshots: centre\ntape: reused\n');
  expect(codes(found.findings)).not.toContain('fire.tape');
  expect(found.turnedOff).toEqual([{ code: 'fire.tape', reason: 'we label the marks' }]);
});

/** What the rules alone look at is written down or left out: everything else of the evaluation stays. */
test('no rule changes the verdict, the steps or what is expected', () => {
  const careless = log(SESSION, 'marks: M1\nshots: 4 right 0 up\ntape: reused\n', CENTRED.M2, RELEASE);
  const careful = log(SESSION, CHECKS, 'marks: M1\nshots: 4 right 0 up\n', CENTRED.M2);
  const without = evaluated(MACHINE, `${LIMITS}rules: {${codes(careless.findings).map((code) => `${code}: {off: tried}`).join(', ')}}\n`, SESSION, 'marks: M1\nshots: 4 right 0 up\ntape: reused\n', CENTRED.M2, RELEASE);
  expect(new Set(codes(careless.findings))).toEqual(new Set(['fire.unchecked', 'fire.tape', 'release.stale', 'release.outside']));
  expect(without.findings).toEqual([]);
  for (const other of [careful, without]) {
    expect([other.verdict, other.steps, other.expected]).toEqual([careless.verdict, careless.steps, careless.expected]);
  }
});
