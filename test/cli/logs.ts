/** Logs that lead to every kind of step, by what they show; to add one, copy a line. */

export const MACHINE = `machine: swift
source: {fires: left}
path:
  M1: {leg: 100 mm, aperture: 20 mm, sends: front, mount: corner}
  M2: {rides: gantry, stops: {near: 120 mm, far: 650 mm}, aperture: 20 mm, sends: right, mount: corner}
  M3: {rides: head, stops: {near: 80 mm, far: 880 mm}, aperture: 18 mm, sends: down, mount: corner}
  lens: {leg: 55 mm, aperture: 18 mm, focal: 50.8 mm}
mounts:
  corner:
    screws: {A: {right: -22 mm, up: 22 mm}, B: {right: 22 mm, up: -22 mm}, C: {right: -22 mm, up: -22 mm}}
    thread: M4
    in: toward beam
    knob: 14 mm
`;

export const LIMITS = `limits: workshop
stations:
  M1: {centre: 3 mm}
  M2: {centre: 2 mm, spread: 1.5 mm}
  M3: {centre: 2 mm, spread: 2.5 mm}
  lens: {centre: 1.5 mm}
`;

const PLUMB = LIMITS.replace('lens: {centre: 1.5 mm}', 'lens: {centre: 1.5 mm, plumb: 12 mrad}');

const M1 = 'marks: M1\nshots: centre\n';
const M2 = 'marks: M2\nshots: [{at: near, mark: centre}, {at: far, mark: centre}, {at: 385 mm, mark: centre}]\n';
const M3 =
  'marks: M3\nshots: [{at: near, mark: centre}, {at: far, with: {M2: far}, mark: centre}, {at: far, mark: centre}, {at: near, with: {M2: far}, mark: centre}, {at: 480 mm, mark: centre}]\n';
const LENS = 'marks: lens\nshots: [{mark: centre}, {with: {M2: far, M3: far}, mark: centre}]\n';
const off = (near: string, far: string) => `marks: M2\nshots: {near: ${near}, far: ${far}}\n`;
const missed = off('2 right 1 up', 'none');
const bed = (...marks: string[]) =>
  `marks: lens\nshots: [${marks.map((mark, k) => `{at: here, height: ${20 + 100 * k} mm, mark: ${mark}}`).join(', ')}]\n`;

/** The names of the log put in the place of others. */
function renamed(names: Readonly<Record<string, string>>, ...cells: string[]): string[] {
  return cells.map((cell) =>
    Object.entries(names).reduce((text, [from, to]) => text.replaceAll(new RegExp(`\\b${from}\\b`, 'g'), to), cell),
  );
}

const written = (...cells: string[]) => cells.join('---\n');

export const LOGS: Readonly<Record<string, string>> = {
  'nothing shot yet': written(MACHINE, LIMITS),
  'only the first mirror shot': written(MACHINE, LIMITS, M1),
  'a screw in': written(MACHINE, LIMITS, M1, off('0.4 right 0 up', '2.8 right 0 up')),
  'carriages without a name': written(
    MACHINE.replaceAll(/rides: \w+, /g, ''),
    LIMITS,
    M1,
    off('0.4 right 0 up', '2.8 right 0 up'),
  ),
  'a screw out': written(MACHINE, LIMITS, M1, off('0.4 left 0 up', '2.8 left 0 up')),
  'more than a turn': written(
    MACHINE.replace('thread: M4', 'pitch: 0.2 mm'),
    LIMITS,
    M1,
    off('1 right 1 up', '9 right 8 down'),
  ),
  'two parts at once': written(MACHINE, LIMITS, M1, off('0 right 4 up', '0 right 4 up')),
  'the tube': written(MACHINE, LIMITS, 'marks: M1\nshots: 4.5 right 5.5 down\n'),
  'a lock to loosen': written(
    MACHINE,
    LIMITS,
    'adjust: M1\nlock: tight\n',
    M1,
    off('0.4 right 0 up', '2.8 right 0 up'),
  ),
  'a lock to tighten': written(MACHINE, LIMITS, 'adjust: M2\nlock: loose\n', M1, M2, M3, LENS),
  'a second corner': written(MACHINE, LIMITS, M1, M2, 'marks: M3\nshots: {near: centre}\n'),
  'the lens at two corners': written(MACHINE, LIMITS, M1, M2, M3),
  'tapes at two heights': written(MACHINE, PLUMB, M1, M2, M3, LENS),
  'out of plumb': written(MACHINE, PLUMB, M1, M2, M3, LENS, bed('7 right 40 front', '10 right 40 front')),
  'a leg in millimetres': written(MACHINE, LIMITS, M1, missed),
  'a mount to be learnt': written(
    MACHINE.replace(/screws: .*\n {4}thread.*\n {4}in.*\n {4}knob.*/, 'screws: {A: {}, B: {}}'),
    LIMITS,
    M1,
    off('0.5 right 0 up', '4.5 right 0 up'),
  ),
  'a screw that does half of what its pitch says': written(
    MACHINE,
    LIMITS,
    M1,
    off('centre', '6 right 0 up'),
    'adjust: M1\nturn: {B: in 1/2}\n',
    off('1 left 0 up', '0.7 right 0 up'),
    'adjust: M1\nturn: {B: out 1/2}\n',
    off('centre', '6 right 0 up'),
  ),
  'a tube that points elsewhere': written(
    MACHINE.replace('mounts:', 'priors: {mirrorTilt: 0.3 mrad, apertureOffset: 0.2 mm}\nmounts:'),
    LIMITS,
    'marks: M1\nshots: 0 right 0.6 down\n',
    off('0 right 1.3 down', '0 right 4.5 down'),
  ),
  'inside, but not surely': written(MACHINE, LIMITS, M1, off('1.4 right 1.2 up', '1.4 right 1.2 up')),
  'all within': written(MACHINE, LIMITS, M1, M2, M3, LENS),
  'within and signed off': written(MACHINE, LIMITS, M1, M2, M3, LENS, 'release: in service\nby: kt\n'),
  'no tape is hit': written(MACHINE, LIMITS, M1, off('none', 'none')),
  'no limits': written(MACHINE, M1),
  'no machine': M1,
  'an empty file': '',
  'names that YAML 1.1 takes for truth values': written(
    ...renamed(
      { M1: '"y"', near: '"no"', far: '"on"', B: '"n"', A: '"off"' },
      MACHINE,
      LIMITS,
      M1,
      off('0.4 right 0 up', '2.8 right 0 up'),
    ),
  ),
  'the same, at the corners of M3': written(
    ...renamed({ M2: '"y"', near: '"no"', far: '"on"' }, MACHINE, LIMITS, M1, M2),
  ),
  'names of a hundred letters': written(
    ...renamed(
      {
        M1: 'one_'.repeat(25),
        M2: 'two_'.repeat(25),
        near: 'near'.repeat(25),
        B: 'Screw'.repeat(20),
        gantry: 'g'.repeat(100),
      },
      MACHINE,
      LIMITS,
      M1,
      off('0.4 right 0 up', '2.8 right 0 up'),
    ),
  ),
  'the same, at the corners': written(
    ...renamed(
      {
        M1: 'one_'.repeat(25),
        M2: 'two_'.repeat(25),
        far: 'far_'.repeat(25),
        M3: 'm3_'.repeat(33),
        gantry: 'g'.repeat(100),
      },
      MACHINE,
      LIMITS,
      M1,
      M2,
      M3,
    ),
  ),
  'names of JavaScript’s own': written(
    ...renamed(
      { M2: 'constructor', near: 'toString', B: 'valueOf' },
      MACHINE,
      LIMITS,
      M1,
      off('0.4 right 0 up', '2.8 right 0 up'),
    ),
  ),
  'mistakes among good cells': written(
    MACHINE,
    LIMITS,
    M1,
    'marks: M2\nshots: {near: 1.5, far: 2 right}\n',
    'marks: [\n',
    'adjust: M9\nturn: {B: 1/4}\n',
    'note: "open\n',
  ),
};
