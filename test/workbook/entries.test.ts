/** What a cell means: its entry, in mm, rad, W and turns. */
import { describe, expect, test } from 'vitest';
import { child, pathTo, type Path } from '../../src/model/index.ts';
import { below, GOOD, MACHINE, read } from './sample.ts';

test('a correct workbook has no findings', () => {
  const { codes, entries } = read(GOOD);
  expect(codes).toEqual([]);
  expect(entries.map(({ kind }) => kind)).toEqual([
    'machine',
    'limits',
    'session',
    'marks',
    'adjust',
    'marks',
    'care',
    'release',
  ]);
});

test('the machine, with every default', () => {
  const [entry] = read(MACHINE).entries;
  expect(entry).toMatchObject({
    kind: 'machine',
    machine: {
      name: 'lark',
      units: 'mm',
      care: {},
      priors: {},
      source: {
        fires: 'left',
        wavelength: 0.0106,
        power: { value: 60 },
        beam: { diameter: { value: 5 }, divergence: { value: 0.004 }, M2: { value: 1.1 } },
        holders: { exit: 100, tail: 900 },
      },
      path: [
        { name: 'M1', kind: 'mirror', leg: { value: 110 }, aperture: 20, sends: 'front', mount: 'corner', inset: 0 },
        { name: 'M2', kind: 'mirror', rides: 'gantry', stops: { near: { value: 150 }, far: { value: 610 } } },
        { name: 'M3', kind: 'mirror' },
        { name: 'lens', kind: 'lens', leg: { value: 55, u: 1 }, focal: { value: 50.8 }, shape: 'plano-convex' },
      ],
      mounts: {
        corner: {
          pitch: 0.7,
          thread: 'M4',
          in: 'toward beam',
          heads: 'behind',
          knob: 14,
          doubt: 0.2,
          screws: { A: { right: { value: -20 } } },
        },
        learnt: { screws: { A: {}, B: {} }, doubt: 0.2 },
      },
    },
  });
});

const legs = { M2: 150, M3: 80 };
const shot = { at: 'near', carriages: legs, with: {}, height: 0, path: 'shots/near' };

describe('cells', () => {
  test.each<[string, object]>([
    [
      'limits: x\nstations: {lens: {plumb: 2}}\nconfidence: 0.95',
      {
        limits: {
          stations: { lens: { plumb: 0.002 } },
          confidence: 0.95,
          reading: { resolution: 0.5, placing: 0.2 },
          rules: {},
        },
      },
    ],
    [
      'limits: x\nreading: {placing: 0}\nrules: {log.bowed: {off: known}}',
      {
        limits: { reading: { resolution: 0.5, placing: 0 }, confidence: 0.9, rules: { 'log.bowed': { off: 'known' } } },
      },
    ],
    ['session: a\nreason: new tube', { kind: 'session', title: 'a', reason: 'new tube' }],
    [
      'marks: M2\nshots: {near: 1.5 right 2.0 down}',
      { kind: 'marks', station: 'M2', shots: [{ ...shot, marks: [{ right: 1.5, up: -2 }] }] },
    ],
    ['marks: M2\nshots: {near: [1 up, none]}', { shots: [{ ...shot, marks: [{ up: 1 }, { none: true }] }] }],
    [
      'marks: M2\nshots: {near: centre size 5 shape oval}',
      { shots: [{ marks: [{ right: 0, up: 0, size: 5, shape: 'oval' }] }] },
    ],
    [
      'marks: M2\nshots: {near: {right: -1, up: 2, size: 4, shape: double}}',
      { shots: [{ marks: [{ right: -1, up: 2, size: 4, shape: 'double' }] }] },
    ],
    [
      'marks: M2\nseen: against beam\nshots: {near: {right: 1, up: 2}, far: 1 right}',
      { shots: [{ marks: [{ right: -1, up: 2 }] }, { marks: [{ right: -1 }] }] },
    ],
    [
      'marks: M2\nshots: [{at: far, with: {M3: 300 mm}, mark: centre}]',
      { shots: [{ at: 'far', carriages: { M2: 610, M3: 300 }, with: { M3: 300 }, path: 'shots/0/mark' }] },
    ],
    ['marks: M2\nshots: [{at: 200 mm, mark: centre}]', { shots: [{ at: 200, carriages: { M2: 200, M3: 80 } }] }],
    ['marks: M1\nshots: 1 front', { shots: [{ at: 'here', carriages: legs, path: 'shots', marks: [{ right: -1 }] }] }],
    ['marks: M1\nshots: {right: 1, up: 2}', { shots: [{ at: 'here', marks: [{ right: 1, up: 2 }] }] }],
    [
      'marks: M1\nshots: [1 up, {right: 2}]',
      {
        shots: [
          { at: 'here', path: 'shots/0' },
          { at: 'here', path: 'shots/1', marks: [{ right: 2 }] },
        ],
      },
    ],
    ['marks: lens\nshots: 1 right 2 front', { shots: [{ marks: [{ right: 1, up: -2 }] }] }],
    ['marks: lens\nshots: [{mark: 1 rear, height: 80}]', { shots: [{ at: 'here', height: 80, marks: [{ up: 1 }] }] }],
    [
      'marks: M2\nshots: {near: centre}\ntape: reused\npulse: {power: 6 W, time: 200 ms}',
      { tape: 'reused', pulse: { power: 0.1, time: 0.2 } },
    ],
    [
      'adjust: M1\nturn: {A: in 1/4, B: out 90 deg}\nlock: loose',
      { kind: 'adjust', part: 'M1', turns: { A: 0.25, B: -0.25 }, lock: 'loose' },
    ],
    ['adjust: M1\nlock: found tight', { kind: 'adjust', part: 'M1', turns: {}, foundLock: 'tight' }],
    ['adjust: M1\nturn: {A: in 1/4}\nlock: found loose', { turns: { A: 0.25 }, foundLock: 'loose' }],
    ['adjust: M1\nno further: {B: in, A: out}', { turns: {}, noFurther: { B: 'in', A: 'out' } }],
    ['adjust: M1\nturn: {B: in 1/8}\nno further: {B: in}', { turns: { B: 0.125 }, noFurther: { B: 'in' } }],
    [
      'adjust: tube\nshift: 1 mm up 2 mm left\nend: tail',
      { part: 'tube', turns: {}, shift: { by: [-2, 0, 1], end: 'tail' } },
    ],
    [
      'care: M2\nfound: dusty\ndid: removed and cleaned\nwith: tissue',
      { kind: 'care', part: 'M2', found: 'dusty', did: 'removed and cleaned', with: 'tissue' },
    ],
    ['power: lens\nreading: [51 W, 50500 mW]', { kind: 'power', station: 'lens', readings: [51, 50.5] }],
    [
      'power: lens\nreading: 51 W\nwith: {M2: far, M3: 410 mm}',
      { kind: 'power', station: 'lens', readings: [51], with: { M2: 'far', M3: 410 } },
    ],
    [
      'care: lens\nfound: scratched\ndid: tightened',
      { kind: 'care', part: 'lens', found: 'scratched', did: 'tightened' },
    ],
    ['event: collision\ndate: 2026-04-12 10:20', { kind: 'event', what: 'collision', date: '2026-04-12 10:20' }],
    ['checks: safe\ndone: [eyewear on]', { kind: 'checks', title: 'safe', done: ['eyewear on'], open: [] }],
    ['note: |\n  # Title\n  text', { kind: 'note', note: '# Title\ntext\n' }],
    [
      'work: w\na: 6 mm - 1.5 mm\nb: a / (M2.far - M2.near)',
      {
        kind: 'work',
        values: { a: '6 mm - 1.5 mm' },
        results: { a: { value: 4.5, kind: 'length' }, b: { kind: 'number' } },
      },
    ],
    ['release: withdrawn\nwitness: rs', { kind: 'release', to: 'withdrawn', witness: 'rs' }],
    [
      'marks: M2\nshots: {near: 1.5 right 2.0 down ± 0.3 mm size 5}',
      { shots: [{ marks: [{ right: 1.5, up: -2, u: { right: 0.3, up: 0.3 }, size: 5 }] }] },
    ],
    ['marks: M2\nshots: {near: 1 up ± 0.3}', { shots: [{ marks: [{ up: 1, u: { up: 0.3 } }] }] }],
    ['marks: M2\nshots: {near: centre +- 1/32 in}', { shots: [{ marks: [{ u: { right: 0.79375, up: 0.79375 } }] }] }],
    [
      'marks: M2\nseen: against beam\nshots: {near: 2.5 ± 0.1 right 3.0 down}',
      { shots: [{ marks: [{ right: -2.5, up: -3, u: { right: 0.1 } }] }] },
    ],
    ['marks: M2\nshots: {near: {right: 1 ± 0.2, up: 2}}', { shots: [{ marks: [{ right: 1, u: { right: 0.2 } }] }] }],
    [
      'measure: bed level\nvalues: {front left: [0.2 mm, 0.4 mm], "3": 1/8 in ± 0.1 mm}\nlimit: 5 mm\nwith: gauge',
      {
        kind: 'measure',
        name: 'bed level',
        dimension: 'length',
        values: [
          { place: '3', value: 3.175, u: 0.1, repeats: 1, path: 'values/3' },
          { place: 'front left', value: expect.closeTo(0.3, 12), repeats: 2, path: 'values/front left' },
        ],
        limit: { least: -5, most: 5 },
        with: 'gauge',
      },
    ],
    [
      'measure: coolant\nvalue: 19.5 ± 0.5 degC\nbetween: [18 degC, 22 degC]',
      { dimension: 'temperature', values: [{ value: 19.5, u: 0.5, path: 'value' }], limit: { least: 18, most: 22 } },
    ],
    ['session: a\nhours: 1234', { kind: 'session', hours: { hours: 1234 } }],
    ['session: a\nhours: new 0.5 h', { kind: 'session', hours: { hours: 0.5, isNew: true } }],
    ['event: a\nphoto: photos/a.jpg', { kind: 'event', photos: [{ file: 'photos/a.jpg' }] }],
    [
      `note: a\nphoto: [a.png, {file: b.webp, sha256: ${'AB'.repeat(32)}}]`,
      { kind: 'note', photos: [{ file: 'a.png' }, { file: 'b.webp', sha256: 'ab'.repeat(32) }] },
    ],
    [
      'care: M2\ndid: inspected\namended: [{was: {did: replaced, by: nothing}, date: 2026-03-15, by: kt, reason: a}, {was: nothing, date: 2026-03-16, by: rs, reason: b}]',
      {
        kind: 'care',
        did: 'inspected',
        amended: [
          { was: { did: 'replaced', by: 'nothing' }, date: '2026-03-15', by: 'kt', reason: 'a' },
          { date: '2026-03-16', by: 'rs', reason: 'b' },
        ],
      },
    ],
    ['work: w\nhours: 3 h\na: 2 mm', { kind: 'work', values: { a: '2 mm' }, hours: { hours: 3 } }],
  ])('%s', (cell, expected) => {
    const { entry, codes } = below(cell);
    expect(codes).toEqual([]);
    expect(entry).toMatchObject(expected);
  });
});

test('what identifies a machine, and what makes it a simulated one', () => {
  const asset = { number: 'NL-017', serial: '0755', owner: 'Net Loft', site: 'quay' };
  const written = `asset: {number: NL-017, serial: "0755", owner: Net Loft, site: quay}\npractice: {seed: 7}\nmounts:`;
  const { entries, codes } = read(MACHINE.replace('mounts:', written));
  expect(codes).toEqual([]);
  expect(entries[0]).toMatchObject({ machine: { asset, practice: { seed: 7, level: 1 } } });
});

test('a release of a machine to practise on releases nothing', () => {
  const { entry, codes } = below(
    'release: in service\nby: kt',
    MACHINE.replace('mounts:', 'practice: {seed: 7}\nmounts:'),
  );
  expect(codes).toEqual(['release.practice']);
  expect(entry).toEqual({ kind: 'unread', of: 'release', part: 'in service' });
});

test.each([
  ['thread: M4', 'right', 'nut'],
  ['thread: M4 LH', 'left', 'nut'],
  ['thread: M4-LH, locks: none', 'left', 'none'],
  ['pitch: 0.7 mm, locks: nut', 'right', 'nut'],
])('a mount with `%s` has a %s-hand thread, locks: %s', (written, hand, locks) => {
  const [entry] = read(MACHINE.replace('learnt: {', `learnt: {${written}, `)).entries;
  expect(entry).toMatchObject({ machine: { mounts: { learnt: { hand, locks } } } });
});

test('a turn by the rim’s travel uses the knob', () => {
  const { entry } = below('adjust: M1\nturn: {A: out 14 mm at rim}');
  expect(entry).toMatchObject({ turns: { A: expect.closeTo(-1 / Math.PI, 12) } });
});

describe('what cannot be read', () => {
  test.each<[string, object]>([
    ['adjust: M1\nturn: {A: 1/4}', { kind: 'unread', of: 'adjust', part: 'M1' }],
    ['adjust: "M1', { kind: 'unread', of: 'adjust', part: 'M1' }],
    ['turn: {A: in 1/4}', { kind: 'unread' }],
    ['event: a\nsession: b', { kind: 'unread' }],
    ['marks: M2\nshots: {near: no idea}', { kind: 'unread', of: 'marks', part: 'M2' }],
    ['marks: M2\nseen: againt beam\nshots: {near: centre}', { kind: 'unread', of: 'marks', part: 'M2' }],
  ])('%s', (cell, expected) => {
    const { entry, codes } = below(cell);
    expect(codes).not.toEqual([]);
    expect(entry).toEqual(expected);
  });
});

describe('the rest of the cell still counts', () => {
  test.each<[string, object]>([
    ['marks: M2\nshots: {near: no idea, far: 1 up}', { shots: [{ at: 'far', path: 'shots/far', marks: [{ up: 1 }] }] }],
    [
      'marks: M2\nshots: [{at: near, mark: bad}, {at: far, mark: 1 up}, {at: nowhere, mark: centre}]',
      { shots: [{ at: 'far', path: 'shots/1/mark' }] },
    ],
    ['marks: M2\nshots: {near: 1 right, 2 down, far: 1 up}', { shots: [{ at: 'far' }] }],
    [
      'marks: M3\nshots: [{at: far, with: {M2: fra}, mark: 1 up}, {at: far, with: {M2: far}, mark: 2 up}]',
      { shots: [{ marks: [{ up: 2 }] }] },
    ],
    [
      'marks: M2\nshots: {near: 1 up, near/far: 2 up}',
      { shots: [{ at: 'near', path: 'shots/near', marks: [{ up: 1 }] }] },
    ],
    ['adjust: M1\nturn: {A: in 1/4}\ndate: yesterday', { kind: 'adjust', turns: { A: 0.25 } }],
    ['work: w\na: (\nb: 2', { results: { b: { value: 2 } } }],
    ['adjust: M1\nturn: {A: in 1/4}\nhours: many', { kind: 'adjust', turns: { A: 0.25 } }],
    ['adjust: M1\nturn: {A: in 1/4}\nphoto: [a.png, b.gif]', { kind: 'adjust', turns: { A: 0.25 } }],
    ['adjust: M1\nturn: {A: in 1/4}\namended: [{was: nothing}]', { kind: 'adjust', turns: { A: 0.25 } }],
  ])('%s', (cell, expected) => {
    const { entry, codes } = below(cell);
    expect(codes.length).toBeGreaterThan(0);
    expect(entry).toMatchObject(expected);
    expect((entry as { shots?: unknown[] }).shots?.length ?? 1).toBe(1);
  });
});

test('without a machine, one finding; below one that cannot be read, none', () => {
  expect(read('marks: M2\nshots: {near: centre}\n---\nadjust: M1\nlock: tight').codes).toEqual(['machine.none']);
  const below = read('machine: lark\nsource: {fires: up}\n---\nmarks: M2\nshots: {near: centre}');
  expect(below.codes).toEqual(['cell.missing']);
  expect(below.entries.at(-1)).toMatchObject({ kind: 'unread', of: 'marks', part: 'M2' });
});

test('spans are those of the values, relative to the cell', () => {
  const text = 'marks: M2\nshots: {near: "1 up", far: [2 up]}';
  const { entries } = read(`${MACHINE}---\n${text}`);
  const { spans } = entries.at(-1)!;
  const said = (path: Path) => `---\n${text}`.slice(spans[path]!.start, spans[path]!.end);
  const far = pathTo('shots', 'far');
  expect([pathTo('marks'), pathTo('shots', 'near'), far, child(far, 0)].map(said)).toEqual([
    'M2',
    '"1 up"',
    '[2 up]',
    '2 up',
  ]);
});

test('a key with a slash is one key: the second value of `front` is not the value of `front/1`', () => {
  const text = 'measure: bed level\nvalues: {front: [0.1 mm, 20 degC], front/1: 0.3 mm, front~1: 0.4 mm}';
  const { findings } = read(text);
  expect(findings.map(({ code, span }) => [code, text.slice(span.start, span.end)])).toEqual([
    ['quantity.dimension', '20 degC'],
  ]);
});
