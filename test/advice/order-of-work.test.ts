/** The order of work: findings at a release, a shot or a turn, and when there are none. Copy a line to add a case. */
import { describe, expect, test } from 'vitest';
import { bookOf } from '../support/workbook.ts';
import { fixesAt, type Change } from '../../src/language/index.ts';
import { CENTRED, codes, evaluated, LIMITS, log, MACHINE, WITH_NUTS } from '../support/log.ts';

const SESSION = 'session: spring\ndate: 2026-03-07\n';
const CHECKS = 'checks: make safe\ndone: [eyewear]\n';
const RELEASE = 'release: in service\nby: kt\n';
const EVERYTHING = [CENTRED.M1, CENTRED.M2, CENTRED.M3, CENTRED.lens];
const MINDFUL = WITH_NUTS.replace('mounts:', 'care: {M2: every 3 months}\npulse: {power: 20 %, time: 200 ms}\nmounts:');
const UNWATCHED = 'checks: make safe\ndone: [eyewear]\nopen: ["fire watch: ana"]\n';
const WATCHED = 'checks: at last\ndone: ["Fire  watch: ana"]\n';
const OUT = 'care: lens\ndid: removed and cleaned\n';
const M2_OUT = 'care: M2\ndid: removed and cleaned\n';
const TIGHTENED = 'care: M2\ndid: tightened\n';
const CRACKED = 'care: M3\nfound: cracked\n';
const INSPECTED = 'care: M2\ndid: inspected\ndate: 2026-01-10\n';
const REFIT = 'care: lens\ndid: inspected\nrefit: {flat side: down, ring: snug, witness: lined up, hose: refitted}\n';

const CASES: readonly (readonly [code: string, wrong: readonly string[], right: readonly string[]])[] = [
  ['fire.unchecked', [SESSION, CENTRED.M1], [SESSION, CHECKS, CENTRED.M1]],
  ['fire.unchecked', [SESSION, CHECKS, CENTRED.M1, SESSION, CENTRED.M1], [CENTRED.M1]],
  ['fire.unchecked', [SESSION, 'power: lens\nreading: 60 W\n'], [SESSION, CHECKS, 'power: lens\nreading: 60 W\n']],
  ['fire.unchecked', [SESSION, 'checks: make safe\n', CENTRED.M1], [SESSION, UNWATCHED, WATCHED, CENTRED.M1]],
  ['fire.open', [SESSION, UNWATCHED, CENTRED.M1], [SESSION, UNWATCHED, WATCHED, CENTRED.M1]],
  [
    'fire.open',
    [SESSION, UNWATCHED, CHECKS, CENTRED.M1],
    [SESSION, UNWATCHED, 'release: withdrawn\n', SESSION, CHECKS, CENTRED.M1],
  ],
  [
    'fire.pulse',
    ['marks: M1\nshots: centre\npulse: {power: 25 %}\n'],
    ['marks: M1\nshots: centre\npulse: {power: 20 %, time: 200 ms}\n'],
  ],
  [
    'fire.pulse',
    ['marks: M1\nshots: centre\npulse: {time: 300 ms}\n'],
    ['marks: M1\nshots: centre\npulse: {time: 100 ms}\n'],
  ],
  ['fire.tape', ['marks: M1\nshots: centre\ntape: reused\n'], ['marks: M1\nshots: centre\ntape: fresh\n']],
  [
    'order.locked',
    ['adjust: M1\nlock: tight\n', 'adjust: M1\nturn: {A: in 1/4}\n'],
    ['adjust: M1\nlock: tight\n', 'adjust: M1\nlock: loose\nturn: {A: in 1/4}\n'],
  ],
  [
    'order.locked',
    ['adjust: M1\nlock: loose\n', 'adjust: M1\nlock: tight\n', 'adjust: M1\nturn: {A: in 1/4}\n'],
    ['adjust: M2\nlock: tight\n', 'adjust: M1\nturn: {A: in 1/4}\n'],
  ],
  [
    'order.locked',
    ['adjust: M1\nlock: found tight\n', 'adjust: M1\nturn: {A: in 1/4}\n'],
    ['adjust: M1\nlock: found loose\n', 'adjust: M1\nturn: {A: in 1/4}\n'],
  ],
  [
    'order.locked',
    ['adjust: M1\nlock: tight\n', 'adjust: M1\nturn: {A: in 1/4}\nlock: tight\n'],
    ['adjust: M1\nturn: {A: in 1/4}\nlock: tight\n'],
  ],
  [
    'order.locked',
    ['adjust: M1\nlock: found tight\nturn: {A: in 1/4}\n'],
    ['adjust: M1\nlock: tight\n', 'event: moved\n', 'adjust: M1\nturn: {A: in 1/4}\n'],
  ],
  [
    'order.upstream',
    ['marks: M2\nshots: {near: 5 right 0 up, far: 5 right 0 up}\n', 'adjust: M2\nturn: {A: in 1/4}\n'],
    [CENTRED.M2, 'adjust: M2\nturn: {A: in 1/4}\n'],
  ],
  [
    'order.upstream',
    ['marks: M2\nshots: {near: 0 right 0 up, far: 1.9 right 1.9 up}\n', 'adjust: M2\nturn: {A: in 1/4}\n'],
    [
      'marks: M2\nshots: {near: 5 right 0 up, far: 5 right 0 up}\n',
      'adjust: M2\nturn: {A: in 1/4, B: in 1/4, C: in 1/4}\n',
    ],
  ],
  [
    'order.upstream',
    ['marks: M1\nshots: 5 right 0 up\n', CENTRED.M2, 'adjust: M2\nturn: {A: in 1/4}\n'],
    ['marks: M1\nshots: 3.2 right 0 up\n', CENTRED.M2, 'adjust: M2\nturn: {A: in 1/4}\n'],
  ],
  [
    'order.upstream',
    ['marks: M2\nshots: {near: centre, far: none}\n', 'adjust: M2\nturn: {A: in 1/4}\n'],
    ['marks: M2\nshots: {near: centre, far: none}\n', 'adjust: M1\nturn: {A: in 1/4}\n'],
  ],
  ['release.open', [...EVERYTHING, UNWATCHED, RELEASE], [...EVERYTHING, UNWATCHED, WATCHED, RELEASE]],
  [
    'release.open',
    [UNWATCHED, 'release: withdrawn\n', SESSION, CHECKS, ...EVERYTHING, RELEASE],
    [...EVERYTHING, UNWATCHED, 'release: withdrawn\n'],
  ],
  [
    'release.loose',
    [...EVERYTHING, 'adjust: M1\nlock: loose\n', RELEASE],
    [...EVERYTHING, 'adjust: M1\nlock: loose\n', 'release: withdrawn\n'],
  ],
  [
    'release.loose',
    ['adjust: M1\nturn: {A: in 1/16}\n', ...EVERYTHING, RELEASE],
    ['adjust: M1\nturn: {A: in 1/16}\nlock: tight\n', ...EVERYTHING, RELEASE],
  ],
  [
    'release.loose',
    ['adjust: M1\nlock: found loose\n', ...EVERYTHING, RELEASE],
    ['adjust: M1\nlock: found tight\n', ...EVERYTHING, RELEASE],
  ],
  [
    'release.locked',
    [...EVERYTHING, 'adjust: M1\nlock: tight\n', RELEASE],
    ['adjust: M1\nlock: tight\n', ...EVERYTHING, RELEASE],
  ],
  ['release.removed', [...EVERYTHING, M2_OUT, RELEASE], [M2_OUT, ...EVERYTHING, RELEASE]],
  ['release.removed', [...EVERYTHING, TIGHTENED, RELEASE], [...EVERYTHING, OUT, REFIT, RELEASE]],
  ['release.unfit', [...EVERYTHING, CRACKED, RELEASE], [...EVERYTHING, CRACKED, 'release: withdrawn\n']],
  [
    'release.unfit',
    [...EVERYTHING, 'care: "M1"\nfound: loose\n', CRACKED, RELEASE],
    [CRACKED, 'care: M3\ndid: replaced\n', ...EVERYTHING, RELEASE],
  ],
  ['release.stale', [...EVERYTHING, 'event: collision\n', RELEASE], ['event: collision\n', ...EVERYTHING, RELEASE]],
  ['release.stale', [CENTRED.M1, RELEASE], [...EVERYTHING, RELEASE]],
  ['release.corners', [...EVERYTHING.slice(0, 3), 'marks: lens\nshots: centre\n', RELEASE], [...EVERYTHING, RELEASE]],
  ['release.outside', ['marks: M1\nshots: 5 right 0 up\n', ...EVERYTHING.slice(1), RELEASE], [...EVERYTHING, RELEASE]],
  ['release.refit', [OUT, ...EVERYTHING, RELEASE], [OUT, ...EVERYTHING, REFIT, RELEASE]],
  [
    'release.refit',
    [OUT, ...EVERYTHING, REFIT.replace('refitted', 'off'), RELEASE],
    [OUT, ...EVERYTHING, REFIT.replace('refitted', 'off'), REFIT, RELEASE],
  ],
  [
    'release.refit',
    [OUT, ...EVERYTHING, REFIT.replace('down', 'up'), RELEASE],
    [OUT, ...EVERYTHING, REFIT.replace('snug', '"snug, no more"'), RELEASE],
  ],
  [
    'release.refit',
    [...EVERYTHING, 'care: lens\ndid: inspected\nrefit: {ring: snug}\n', RELEASE],
    [...EVERYTHING, 'care: lens\ndid: inspected\n', RELEASE],
  ],
  [
    'release.refit',
    [OUT, 'release: withdrawn\n', SESSION, ...EVERYTHING, RELEASE],
    [OUT, 'release: withdrawn\n', SESSION, ...EVERYTHING, REFIT, RELEASE],
  ],
  ['care.refit', [OUT, REFIT.replace('down', 'up')], [OUT, REFIT]],
  ['session.missing', [...EVERYTHING, RELEASE, CENTRED.M1], [...EVERYTHING, RELEASE, SESSION, CENTRED.M1]],
  [
    'session.missing',
    [...EVERYTHING, 'release: withdrawn\n', 'note: a tape was ordered\n', 'event: collision\n'],
    [CENTRED.M1, 'note: a tape was ordered\n', RELEASE, 'note: seen off\n', 'checks: end of day\n'],
  ],
  ['session.missing', [RELEASE, INSPECTED, CENTRED.M1], [CENTRED.M1]],
  [
    'fire.unchecked',
    [SESSION, CHECKS, CENTRED.M1, RELEASE, CENTRED.M1],
    [SESSION, CHECKS, CENTRED.M1, RELEASE, CHECKS, CENTRED.M1],
  ],
  [
    'care.overdue',
    [INSPECTED, 'session: summer\ndate: 2026-04-11\n'],
    [INSPECTED, 'session: spring\ndate: 2026-04-10\n'],
  ],
  [
    'care.overdue',
    [INSPECTED, 'session: summer\ndate: 2026-04-11\n', CENTRED.M1],
    [INSPECTED, 'session: summer\ndate: 2026-04-11\n', 'care: M2\ndid: inspected\n', CENTRED.M1],
  ],
  [
    'care.overdue',
    [INSPECTED.replace('01-10', '11-30'), 'session: a\ndate: 2027-03-01\n'],
    [INSPECTED.replace('01-10', '11-30'), 'session: a\ndate: 2027-02-28\n'],
  ],
  [
    'care.overdue',
    [INSPECTED, ...EVERYTHING, 'release: in service\ndate: 2026-04-11\n'],
    [INSPECTED, ...EVERYTHING, 'release: in service\ndate: 2026-04-10\n'],
  ],
];

test.each(CASES)('%s: %j, and not %j', (code, wrong, right) => {
  expect(codes(evaluated(MINDFUL, LIMITS, ...wrong).findings)).toContain(code);
  expect(codes(evaluated(MINDFUL, LIMITS, ...right).findings)).not.toContain(code);
});

describe('a fix that is offered', () => {
  const FIXED = CASES.filter(
    ([code]) =>
      !['fire.pulse', 'fire.tape', 'order.upstream', 'order.locked', 'order.noLocks', 'care.refit'].includes(code),
  );
  test.each(FIXED)('makes %s silent: %j', (code, wrong) => {
    const text = [MINDFUL, LIMITS, ...wrong].join('---\n');
    const own = fixesAt(bookOf(text), 0, text.length).filter(
      ({ finding, title }) => finding?.code === code && !title.startsWith('Intended: '),
    );
    expect(own.length).toBeGreaterThan(0);
    for (const { changes, title } of own)
      expect(
        bookOf(changed(text, changes))
          .findings()
          .map((finding) => finding.code),
        title,
      ).not.toContain(code);
  });

  test.each(FIXED)('logs no step of %s as done unless its title says so: %j', (_, wrong) => {
    const text = [MINDFUL, LIMITS, ...wrong].join('---\n');
    const written = fixesAt(bookOf(text), 0, text.length).filter(({ changes }) =>
      changes.some((change) => /^(done|did|lock|refit):/m.test(change.text)),
    );
    expect(written.map(({ title }) => title).filter((title) => !/, if (it was|they were) done$/.test(title))).toEqual(
      [],
    );
  });

  test('keeps the line ends of the file', () => {
    const text = [MINDFUL, LIMITS, SESSION, CENTRED.M1].join('---\n').replaceAll('\n', '\r\n');
    const [fix] = fixesAt(bookOf(text), 0, text.length).filter(({ finding }) => finding?.code === 'fire.unchecked');
    expect(changed(text, fix!.changes)).not.toMatch(/[^\r]\n/);
  });
});

function changed(text: string, changes: readonly Change[]): string {
  return changes
    .toSorted((one, other) => other.start - one.start)
    .reduce((now, { start, end, text: put }) => now.slice(0, start) + put + now.slice(end), text);
}

test('a wrong refit is reported with its note', () => {
  const { findings } = evaluated(
    MINDFUL,
    LIMITS,
    OUT,
    ...EVERYTHING,
    REFIT.replace(/ring: snug, |refitted/g, (part) => (part === 'refitted' ? 'off' : '')),
    RELEASE,
  );
  expect(findings.map(({ facts }) => facts['what'])).toEqual(['ring and hose (“off”)']);
});

test('an open check is reported once at the shots, and again at the release', () => {
  expect(codes(evaluated(MINDFUL, LIMITS, SESSION, UNWATCHED, ...EVERYTHING, RELEASE, RELEASE).findings)).toEqual([
    'fire.open',
    'release.open',
  ]);
});

test('a machine that was withdrawn is signed off when it has been shot again, not before', () => {
  expect(log(...EVERYTHING, 'release: withdrawn\n').steps).toEqual([]);
  expect(log(...EVERYTHING, 'release: withdrawn\n', ...EVERYTHING).steps.map(({ kind }) => kind)).toEqual(['release']);
});

test('care by hours of work is not judged: the log has none', () => {
  const hourly = MINDFUL.replace('every 3 months', 'every 40 h');
  expect(codes(evaluated(hourly, LIMITS, INSPECTED, 'session: years later\ndate: 2031-01-01\n').findings)).toEqual([]);
});

test('a meniscus has no flat side to note', () => {
  const meniscus = MINDFUL.replace('focal: 50.8 mm', 'focal: 50.8 mm, shape: meniscus');
  const noted = 'care: lens\ndid: inspected\nrefit: {ring: snug, witness: lined up, hose: refitted}\n';
  expect(codes(evaluated(meniscus, LIMITS, OUT, ...EVERYTHING, noted, RELEASE).findings)).not.toContain(
    'release.refit',
  );
});

describe('the orientation of a lens, reported in the care cell', () => {
  const said = (shape: string, flat: string, sends = 'down') => {
    const machine = MACHINE.replace('focal: 50.8 mm', `focal: 50.8 mm${shape}`).replace(
      'sends: down',
      `sends: ${sends}`,
    );
    return evaluated(machine, LIMITS, REFIT.replace('down', flat))
      .findings.filter(({ code }) => code === 'care.refit')
      .map(({ facts }) => facts['how']);
  };

  test.each([
    ['', 'down', 'down', []],
    ['', 'up', 'down', ['the flat side goes toward the work, down, and the curved side meets the beam']],
    ['', 'up', 'up', []],
    ['', 'down', 'up', ['the flat side goes toward the work, up, and the curved side meets the beam']],
    [', shape: biconvex', 'up', 'down', []],
    [', shape: meniscus', 'down', 'down', ['a meniscus has no flat side; its bulge meets the beam, so it goes up']],
    [', shape: meniscus', 'up', 'up', ['a meniscus has no flat side; its bulge meets the beam, so it goes down']],
    ['', 'up', 'front', []],
  ])('lens%s, flat side %s, beam %s: %j', (shape, flat, sends, expected) =>
    expect(said(shape, flat, sends)).toEqual(expected),
  );

  test('and in the step that puts it back', () => {
    const back = (shape: string) =>
      evaluated(MACHINE.replace('focal: 50.8 mm', `focal: 50.8 mm${shape}`), LIMITS, ...EVERYTHING).steps[0]!.say;
    expect(back('')).toMatch(/^Refit lens \(flat side toward the work\)/);
    expect(back(', shape: meniscus')).toMatch(/^Refit lens \(bulge toward the beam, up\)/);
    expect(back(', shape: biconvex')).toMatch(/^Refit lens, witness/);
  });
});

test('a disabled rule reports nothing, and its reason is recorded', () => {
  const book = bookOf(
    [
      MINDFUL,
      `${LIMITS}rules: {fire.tape: {off: we label the marks}}\n`,
      'marks: M1\nshots: centre\ntape: reused\n',
    ].join('---\n'),
  );
  expect(codes(book.findings())).not.toContain('fire.tape');
  expect(book.silencings()).toMatchObject([
    { code: 'fire.tape', reason: 'we label the marks', silenced: [{ code: 'fire.tape', cell: 2 }] },
  ]);
});

/** Entries that only the rules read are logged or left out: the rest of the evaluation stays the same. */
test('no rule changes the verdict, the steps or the predicted marks', () => {
  const careless = log(SESSION, 'marks: M1\nshots: 4 right 0 up\ntape: reused\n', CENTRED.M2, RELEASE);
  const withChecks = log(SESSION, CHECKS, 'marks: M1\nshots: 4 right 0 up\n', CENTRED.M2, RELEASE);
  const without = bookOf(
    [
      MACHINE,
      `${LIMITS}rules: {${codes(careless.findings)
        .map((code) => `${code}: {off: tried}`)
        .join(', ')}}\n`,
      SESSION,
      'marks: M1\nshots: 4 right 0 up\ntape: reused\n',
      CENTRED.M2,
      RELEASE,
    ].join('---\n'),
  );
  expect(new Set(codes(careless.findings))).toEqual(
    new Set(['fire.unchecked', 'fire.tape', 'release.stale', 'release.outside']),
  );
  expect(without.findings()).toEqual([]);
  for (const other of [withChecks, without.evaluation()]) {
    expect([other.verdict, other.steps, other.expected]).toEqual([careless.verdict, careless.steps, careless.expected]);
  }
});
