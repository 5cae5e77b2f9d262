/**
 * Texts that a hand would hardly write, by what is wrong with them: too much, too deep, too large, too small, and names
 * that are JavaScript's own. To add one, copy a line.
 */
import fc from 'fast-check';
import { LIMITS, LOGS, MACHINE } from './logs.ts';

const SHOT = LOGS['a screw in']!;
const WITHIN = LOGS['all within']!;

const below = (cell: string) => `${WITHIN}---\n${cell}\n`;
const times = (count: number, line: (index: number) => string, between = '') =>
  Array.from({ length: count }, (_, k) => line(k)).join(between);

/** A good log with one text in it changed. */
function changed(from: string, to: string, log = SHOT): string {
  if (!log.includes(from)) throw new Error(`there is no ${from}`);
  return log.replaceAll(from, to);
}

const quantities: Readonly<Record<string, readonly string[]>> = {
  'leg: 100 mm': [
    '0 mm',
    '-5 mm',
    '1e-300 mm',
    '1e308 mm',
    '1e6 mm',
    '1/0 mm',
    '0/0 mm',
    '9^9^9 mm',
    'sqrt(-1) mm',
    '100 mm ± 1e308 mm',
    '100 mm ± 0 mm',
    '1e999 mm',
    `${'('.repeat(20_000)}1 mm`,
    `${'1 mm + '.repeat(20_000)}1 mm`,
  ],
  'near: 120 mm, far: 650 mm': [
    'near: 120 mm, far: 120 mm',
    'near: 120 mm, far: 120.000001 mm',
    'near: 650 mm, far: 120 mm',
    'near: 1e-9 mm, far: 1e9 mm',
    'near: 120 mm',
    '',
  ],
  'aperture: 20 mm': ['0 mm', '1e-300 mm', '1e300 mm', '0.001 mm', '-1 mm'],
  'centre: 2 mm': ['0 mm', '1e-300 mm', '1e308 mm', '1e-6 mm', '1e6 mm'],
  'spread: 1.5 mm': ['0 mm', '1e-300 mm', '1e308 mm', '1e-6 mm'],
  'lens: {centre: 1.5 mm}': [
    'confidence: 0 %',
    'confidence: 100 %',
    'confidence: 99.99 %',
    'confidence: 50 %',
    'confidence: -1',
  ].map((text) => `lens: {centre: 1.5 mm}\n${text}`),
  'thread: M4': [
    'pitch: 0 mm',
    'pitch: 1e-300 mm',
    'pitch: 1e300 mm',
    'pitch: 1e-9 mm',
    'thread: M4\n    doubt: 0 %',
    'thread: M4\n    doubt: 500 %',
    'thread: M4\n    doubt: 1e-300 %',
  ],
  'knob: 14 mm': ['1e-300 mm', '0 mm', '0.001 mm'],
  'right: 22 mm, up: -22 mm': [
    'right: 1e300, up: 0',
    'right: -22 mm, up: 22 mm',
    'right: 1e-9, up: 0',
    'right: 0, up: 0',
  ],
  '2.8 right 0 up': [
    '1e6 right 0 up',
    '1e308 right 1e308 up',
    '1e-308 right 0 up',
    '100 right 100 down',
    '-3 right',
    'none',
    '2.8 right',
  ],
};

const readings = [
  'resolution: 0 mm',
  'resolution: 1e-300 mm',
  'resolution: 1e-9 mm, placing: 0 mm',
  'resolution: 100 mm',
  'placing: 1e308 mm',
  'resolution: -1 mm',
];

const NAMES = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'valueOf',
  'tube',
  'here',
  'lens',
  'no',
  'null',
  'mm',
  'e1',
];
const word = (from: string, name: string) => SHOT.replaceAll(new RegExp(`\\b${from}\\b`, 'g'), name);

const bomb = `a: &a [x,x,x,x,x,x,x,x,x]\n${times(12, (k) => `${'bcdefghijklm'[k]}: &${'bcdefghijklm'[k]} [${times(9, () => `*${'abcdefghijklm'[k]}`, ',')}]`, '\n')}`;

export const HOSTILE: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    Object.entries(quantities).flatMap(([from, all]) =>
      all.map((to) => {
        const key = /^(leg|aperture|centre|spread|knob): /.exec(from)?.[0] ?? '';
        return [`${from} → ${(key + to).slice(0, 60)}`, changed(from, to.startsWith(key) ? to : key + to)];
      }),
    ),
  ),
  ...Object.fromEntries(
    readings.flatMap((reading) =>
      [SHOT, WITHIN].map((log, k) => [
        `reading ${reading} (${k})`,
        changed(LIMITS, `${LIMITS}reading: {${reading}}\n`, log),
      ]),
    ),
  ),
  ...Object.fromEntries(
    NAMES.flatMap((name) =>
      ['M2', 'near', 'B', 'corner', 'gantry', 'swift'].map((from) => [`${from} is called ${name}`, word(from, name)]),
    ),
  ),
  ...Object.fromEntries(
    NAMES.flatMap((name) =>
      [
        `limits: x\nstations: {${name}: {centre: 1 mm}}`,
        `marks: ${name}\nshots: {${name}: centre}`,
        `adjust: ${name}\nturn: {${name}: in 1/4}`,
        `care: ${name}\ndid: ${name}`,
        `${name}: x`,
        `work: x\n${name}: 1 mm\nb: ${name} + 1 mm`,
        `limits: x\nrules: {${name}: {off: because}}`,
        `marks: M3\nshots: [{at: near, with: {${name}: ${name}}, mark: centre}]`,
      ].map((cell, k) => [`a cell about ${name} (${k})`, below(cell)]),
    ),
  ),
  'an alias bomb': below(`marks: M2\n${bomb}\nshots: *m`),
  'an alias inside itself': below('marks: M2\nshots: &a [*a]'),
  'a merge key': below('marks: M2\n<<: {shots: {near: centre}}'),
  ...Object.fromEntries(
    ['[', '{', '{a: ', '- ', '? ', 'a: ', '!!', '&', '*', '"', '|\n', '('].map((piece) => [
      `10,000 times ${JSON.stringify(piece)}`,
      below(`marks: M2\nshots: ${piece.repeat(10_000)}`),
    ]),
  ),
  '20,000 keys': below(`marks: M2\n${times(20_000, (k) => `k${k}: 1`, '\n')}`),
  '5,000 times one key': below(`marks: M2\n${'x-a: 1\n'.repeat(5_000)}`),
  'ten megabytes of one line': `note: ${'x'.repeat(10_000_000)}`,
  'a mark of a megabyte': below(`marks: M1\nshots: ${'1 right '.repeat(100_000)}`),
  '100,000 cells': '---\n'.repeat(100_000),
  '100,001 cells': '---\n'.repeat(100_001),
  '40 stops on one carriage': changed(
    'near: 120 mm, far: 650 mm',
    `near: 120 mm, ${times(40, (k) => `s${k}: ${130 + 10 * k} mm`, ', ')}, far: 650 mm`,
  ),
  '1,000 stops on one carriage': changed(
    'near: 120 mm, far: 650 mm',
    `near: 120 mm, ${times(1000, (k) => `s${k}: ${130 + k / 2} mm`, ', ')}, far: 650 mm`,
  ),
  'ten mirrors that all ride': `machine: many\nsource: {fires: left}\npath:\n${times(10, (k) => `  M${k}: {rides: c${k}, stops: {near: 100 mm, far: 300 mm}, aperture: 20 mm, sends: ${k % 2 ? 'left' : 'front'}, mount: c}\n`)}mounts: {c: {screws: {A: {right: -22, up: 22}, B: {right: 22, up: -22}, C: {right: -22, up: -22}}, thread: M4, in: toward beam}}\n---\nlimits: all\nstations: {${times(10, (k) => `M${k}: {centre: 2 mm, spread: 1 mm}`, ', ')}}\n${times(10, (k) => `---\nmarks: M${k}\nshots: [{at: near, mark: centre}, {at: far, with: {${times(k, (m) => `M${m}: far`, ', ')}}, mark: ${k === 9 ? '4 right 4 up' : 'centre'}}]\n`)}`,
  '40 legs on one rail': changed(
    '{near: 0.4 right 0 up, far: 2.8 right 0 up}',
    `[${times(40, (k) => `{at: ${120 + 13 * k} mm, mark: ${k % 3} right ${k % 2} up}`, ', ')}]`,
  ),
  'a hundred tapes on the bed': below(
    times(
      100,
      (k) =>
        `marks: lens\nshots: [{height: 20 mm, mark: 7 right ${k} front}, {height: 120 mm, mark: 8 right ${k} front}]`,
      '\n---\n',
    ),
  ),
  'nothing but line feeds': '\n'.repeat(500_000),
  'nothing but carriage returns': '\r'.repeat(500_000),
  'nothing but conflicts': '<<<<<<< a\nby: b\n=======\nby: c\n>>>>>>> d\n'.repeat(2_000),
  'a zero byte': '\0',
  'a lone half of a pair': 'note: "\ud800"\n',
  'a visit of 300 marks cells':
    WITHIN + times(300, (k) => `---\nmarks: M2\nshots: {near: ${k % 3} right 1 up, far: 2 right ${k % 5} up}\n`),
  '300 turns, each shot':
    WITHIN +
    times(
      300,
      (k) =>
        `---\nadjust: M1\nturn: {B: in 1/16}\n---\nmarks: M2\nshots: {near: ${k % 3} right 1 up, far: 2 right ${k % 5} up}\n`,
    ),
  '300 marks on one tape': `${MACHINE}---\n${LIMITS}---\nmarks: M1\nshots: [${times(300, () => '1 right 1 up', ', ')}]\n`,
  '50 mirrors': `machine: many\nsource: {fires: left}\npath:\n${times(50, (k) => `  M${k}: {leg: 100 mm, aperture: 20 mm, sends: ${k % 2 ? 'left' : 'front'}, mount: c}\n`)}mounts: {c: {screws: {A: {right: -22, up: 22}, B: {right: 22, up: -22}, C: {right: -22, up: -22}}, thread: M4, in: toward beam}}\n---\nlimits: all\nstations: {${times(50, (k) => `M${k}: {centre: 2 mm}`, ', ')}}\n${times(50, (k) => `---\nmarks: M${k}\nshots: ${k === 49 ? '4 right 4 up' : 'centre'}\n`)}`,
  '30 screws on a mount': changed(
    '{A: {right: -22 mm, up: 22 mm}, B: {right: 22 mm, up: -22 mm}, C: {right: -22 mm, up: -22 mm}}',
    `{${times(30, (k) => `S${k}: {right: ${(22 * Math.cos(k)).toFixed(3)}, up: ${(22 * Math.sin(k)).toFixed(3)}}`, ', ')}}`,
  ),
  'no screws on a mount': changed(
    '{A: {right: -22 mm, up: 22 mm}, B: {right: 22 mm, up: -22 mm}, C: {right: -22 mm, up: -22 mm}}',
    '{}',
  ),
  'only to the side': `${MACHINE}---\n${LIMITS}---\nmarks: M1\nshots: 0 right\n---\nmarks: M2\nshots: {near: 0 right, far: 0 right}\n`,
  'two readings of one tape that differ': `${SHOT}---\nmarks: M2\nshots: [{at: near, mark: 1 right 1 up}, {at: near, mark: 5 left 4 down}, {at: far, mark: centre}, {at: far, mark: none}]\n`,
  'tapes at one height': below(
    'marks: lens\nshots: [{height: 20 mm, mark: 7 right 40 front}, {height: 20 mm, mark: 10 right 40 front}]',
  ),
  'tapes at a negative height': below(
    'marks: lens\nshots: [{height: -20 mm, mark: 7 right 40 front}, {height: 20 mm, mark: 10 right 40 front}]',
  ),
  'a shift of a thousand kilometres': below('adjust: tube\nshift: 1e9 mm up'),
  'a million turns': below('adjust: M1\nturn: {B: in 1000000 turn}'),
  'no turn at all': below('adjust: M1\nturn: {B: in 0}'),
  'marks before limits and machine': `marks: M1\nshots: centre\n---\n${LIMITS}---\n${MACHINE}`,
  'limits taken away': below('limits: none\nstations: {}'),
  'limits for a station that is not there': below('limits: none\nstations: {ghost: {centre: 1 mm}}'),
};

/**
 * Those that must not be within though their marks are in the middle: something after them cannot be read, or undoes
 * them.
 */
export const NOT_WITHIN: Readonly<Record<string, string>> = {
  'an adjustment without its direction': below('adjust: M1\nturn: {B: 1/4}'),
  'an adjustment that is no YAML': below('adjust: ['),
  'an adjustment of what is not there': below('adjust: M9\nturn: {B: in 1/4}'),
  'a cell of no kind': below('foo: bar'),
  'a machine that cannot be read': below('machine: swift\npath: ??'),
  'limits that cannot be read': below('limits: none\nstations: {M1: {centre: ???}}'),
  'an adjustment in the cell of a checklist': below('checks: covers\ndone: [covers]\nadjust: M1\nturn: {B: in 1/4}'),
  'an adjustment below marks, without a line between': below(
    'marks: M3\nshots: [{at: near, mark: centre}]\nadjust: M1\nturn: {B: in 1/4}',
  ),
  'an adjustment in a note that is not closed': below('note: "all well\nadjust: M1\nturn: {B: in 1/4}'),
  'an adjustment behind lone carriage returns': below('note: all well\radjust: M1\rturn: {B: in 1/4}'),
  'an adjustment with an unclosed bracket, below power': below(
    'power: M1\nreading: [71 W\nadjust: M1\nturn: {B: in 1/4}',
  ),
  'limits and more in one cell': below('session: spring\nlimits: tighter\nstations: {M1: {centre: 0.1 mm}}'),
  'limits that ask nothing': below('limits: none\nstations: {M1: {}, lens: {}}'),
  'no limits left': below('limits: none\nstations: {}'),
  'a loose lock': below('adjust: M1\nlock: loose'),
  'a collision': below('event: collision'),
  'a newer mark without its direction': below('marks: M1\nshots: 8.5'),
  'newer marks that are no YAML': below('marks: M1\nshots: ['),
  'a newer mark that contradicts': below('marks: M1\nshots: 3 right 0 up'),
  'a mark outside': below('marks: M2\nshots: {far: 3 right 0 up}'),
  'a missed tape': below('marks: M2\nshots: {far: none}'),
  'a mirror taken out': below('care: M2\ndid: removed and cleaned'),
  'a mirror tightened': below('care: M1\ndid: tightened'),
  'a cracked lens': below('care: lens\nfound: cracked\ndid: inspected'),
  'a loose mirror in a cell with a slip': below('care: M2\nfound: loose\ndid: tihgtened'),
  'a double mark': below('marks: M2\nshots: {far: 0 right 0 up shape double}'),
  'a crescent': below('marks: M1\nshots: 0 right 0 up shape crescent'),
  'half a conflict': below(
    '<<<<<<< ours\nadjust: M1\nturn: {B: in 1/4}\n=======\nadjust: M1\nturn: {B: in 1/8}\n>>>>>>> theirs',
  ),
  'only to the side': `${MACHINE}---\n${LIMITS}---\n${times(2, (k) => `marks: M${k + 1}\nshots: ${k ? '{near: 0 right, far: 0 right}' : '0 right'}\n`, '---\n')}`,
  'a confidence that marks cannot reach': changed(
    LIMITS,
    LIMITS.replace('lens: {centre: 1.5 mm}', 'lens: {centre: 0.5 mm}'),
    WITHIN,
  ),
};

/** A log with a few passages replaced, repeated or removed. */
export const MUTATED = fc
  .tuple(
    fc.constantFrom(...Object.values(LOGS).filter((text) => text.length > 400)),
    fc.array(
      fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        remove: fc.constantFrom(0, 0, 1, 2, 10, 60),
        put: fc.constantFrom(
          '',
          '',
          '0',
          '9',
          '-',
          '.',
          ' ',
          '1e9',
          '%',
          'in',
          ': ',
          ', ',
          '\n',
          '\n---\n',
          '{',
          '}',
          '[',
          ']',
          'none',
          'far',
          'M1',
          'lens',
          'up',
          '\u00e9',
        ),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  )
  .map(([log, edits]) =>
    edits.reduce((text, { at, remove, put }) => {
      const from = Math.floor(at * text.length);
      return text.slice(0, from) + put + text.slice(from + remove);
    }, log),
  );
