/** Workbooks that grow in one part, by the number of such parts. */

/** A workbook, and files that it takes its machine from, by their names in the same folder. */
export interface Written {
  readonly text: string;
  readonly beside?: Readonly<Record<string, string>>;
}

const SCREWS = 'A: {right: -22, up: 22}, B: {right: 22, up: -22}, C: {right: -22, up: -22}';
const MOUNTS = `mounts: {c: {screws: {${SCREWS}}, thread: M4, in: toward beam}}\n`;
const SOURCE = 'source: {wavelength: 10.6 um, power: 80 W, beam: {diameter: 6 mm, divergence: 3 mrad}, fires: left}\n';
const STATIONS = `  M1: {leg: 90 mm, aperture: 20 mm, sends: front, mount: c}
  M2: {rides: gantry, stops: {near: 130 mm, far: 690 mm}, aperture: 20 mm, sends: right, mount: c}
  M3: {rides: head, stops: {near: 70 mm, far: 900 mm}, aperture: 18 mm, sends: down, mount: c}
  lens: {leg: 60 mm, aperture: 18 mm, focal: 50.8 mm}
`;
const LIMITS = `limits: workshop
stations:
  M1: {centre: 3 mm}
  M2: {centre: 2.5 mm, spread: 2 mm}
  M3: {centre: 2.5 mm, spread: 2 mm}
  lens: {centre: 2 mm}
`;

/** An engraver with three mirrors and a lens, `more` stations before them, and its limits. */
function engraver(name = 'plover', more = ''): string {
  return `machine: ${name}\n${SOURCE}path:\n${more}${STATIONS}${MOUNTS}---\n${LIMITS}`;
}

/** The engraver and nothing else. */
export const EMPTY = engraver();

function times(count: number, one: (k: number) => string, between = ''): string {
  return Array.from({ length: count }, (_, k) => one(k)).join(between);
}

/** The engraver and a cell `count` times. */
function cells(count: number, one: (k: number) => string): Written {
  return { text: EMPTY + times(count, (k) => `---\n${one(k)}`) };
}

/** The engraver and one cell. */
function cell(text: string): Written {
  return { text: `${EMPTY}---\n${text}` };
}

function day(k: number): string {
  return new Date(Date.UTC(1990, 0, 1 + 3 * k)).toISOString().slice(0, 10);
}

/** Marks of a station with stops that differ from cell to cell within the reading uncertainty. */
function marksOfTwo(k: number): string {
  return `marks: M2\nshots: {near: 0.5 right ${k % 2 === 0 ? '1' : '1.2'} up, far: 1 right 1 up}\n`;
}

function turn(screw: string, isIn: boolean): string {
  return `adjust: M1\nturn: {${screw}: ${isIn ? 'in' : 'out'} 1/16}\n`;
}

interface Mirrors {
  readonly count: number;
  /** The route to the k-th station, and its limits. */
  reached(k: number): string;
  readonly limits: string;
}

function mirrors({ count, reached, limits }: Mirrors): string {
  const sends = (k: number) => (k % 2 === 0 ? 'front' : 'left');
  const path = times(count, (k) => `  M${k}: {${reached(k)}, aperture: 20 mm, sends: ${sends(k)}, mount: c}\n`);
  const all = times(count, (k) => `M${k}: {${limits}}`, ', ');
  return `machine: many\n${SOURCE}path:\n${path}${MOUNTS}---\nlimits: all\nstations: {${all}}\n`;
}

function fixed(count: number): string {
  return mirrors({ count, reached: () => 'leg: 100 mm', limits: 'centre: 2 mm' });
}

/** Fixed mirrors and one cell of marks on each. */
function marked(count: number, mark: (k: number) => string): Written {
  return { text: fixed(count) + times(count, (k) => `---\nmarks: M${k}\nshots: ${mark(k)}\n`) };
}

/** Every mirror rides on a carriage of its own, and is shot with all of them near and with all of them far. */
function riding(count: number): Written {
  const reached = (k: number) => `rides: c${k}, stops: {near: 100 mm, far: 300 mm}`;
  const far = (k: number) => `{at: far, with: {${times(k, (before) => `M${before}: far`, ', ')}}, mark: centre}`;
  const marks = times(count, (k) => `---\nmarks: M${k}\nshots: [{at: near, mark: centre}, ${far(k)}]\n`);
  return { text: mirrors({ count, reached, limits: 'centre: 2 mm, spread: 1 mm' }) + marks };
}

/** `count` cells of marks, in turn on each of thirty mirrors. */
function marksOfMany(count: number): Written {
  const mark = (k: number) => (k % 3 === 0 ? 'centre' : '0.2 right 0.1 up');
  return { text: fixed(30) + times(count, (k) => `---\nmarks: M${k % 30}\nshots: ${mark(k)}\n`) };
}

function places(count: number): Written {
  const shot = (k: number) => `{at: ${130 + (560 * k) / count} mm, mark: ${(k / count).toFixed(2)} right 1 up}`;
  return cell(`marks: M2\nshots: [${times(count, shot, ', ')}]\n`);
}

function visit(k: number): string {
  const [m1, near, far] = [`${k % 3} right 1 up`, `${k % 3} right 1 up`, `2 right ${k % 4} up`];
  const marks = `marks: M1\nshots: ${m1}\n---\nmarks: M2\nshots: {near: ${near}, far: ${far}}\n`;
  return `session: visit ${k}\ndate: ${day(k)}\n---\n${marks}`;
}

/** A workbook whose machine comes through a chain of `count` files. */
function chain(count: number): Written {
  const name = (k: number) => `f${k}.alignbook.yaml`;
  const from = (k: number) => `machine: plover\nfrom: ${name(k)}\n`;
  const last = `machine: plover\n${SOURCE}path:\n${STATIONS}${MOUNTS}`;
  const files = Array.from({ length: count }, (_, k) => [name(k + 1), k + 1 === count ? last : from(k + 2)]);
  return { text: from(1), beside: Object.fromEntries(files) as Record<string, string> };
}

function unmarked(count: number): Written {
  const stations = times(count, (k) => `  P${k}: {leg: 1 mm, aperture: 19 mm}\n`);
  return { text: `${engraver('plover', stations)}---\nmarks: M1\nshots: centre\n` };
}

export const WORKBOOKS = {
  mirrors: (n: number) => marked(n, (k) => (k === n - 1 ? '4 right 4 up' : 'centre')),
  mirrorsOff: (n: number) => marked(n, (k) => `${k % 5} right ${k % 4} up`),
  riding,
  marksOfOne: (n: number) => cells(n, () => 'marks: M1\nshots: centre\n'),
  marksOfTwo: (n: number) => cells(n, marksOfTwo),
  marksOfMany,
  shots: (n: number) => cell(`marks: M1\nshots: [${times(n, () => '0 right 1.0 up', ', ')}]\n`),
  places,
  session: (n: number) => cells(n, (k) => (k % 2 === 0 ? marksOfTwo(k) : turn('B', k % 4 === 1))),
  sessions: (n: number) => cells(n, visit),
  turns: (n: number) => cells(n, (k) => turn('ABC'[k % 3]!, k % 2 === 0)),
  care: (n: number) => cells(n, (k) => `care: M${1 + (k % 3)}\ndid: inspected\ndate: ${day(k)}\n`),
  power: (n: number) => cells(n, (k) => `power: lens\nreading: ${50 + (k % 9)} W\n`),
  work: (n: number) => cell(`work: sums\n${times(n, (k) => `v${k}: ${k === 0 ? '1 mm' : `v${k - 1} + 1 mm`}\n`)}`),
  workOfLog: (n: number) => cell(`work: sums\n${times(n, (k) => `v${k}: M2.far - M2.near + M2.slope.right * 1 mm\n`)}`),
  notes: (n: number) => cells(n, (k) => `note: |\n  Note ${k}.\n`),
  blanks: (n: number) => cell(`note: "a${' '.repeat(n)}b"\n`),
  digits: (n: number) => cell(`note: "${'1'.repeat(n)}"\n`),
  newlines: (n: number) => cell(`note: |+\n  a${'\n'.repeat(n)}  b\n`),
  keys: (n: number) => cell(`marks: M2\n${times(n, (k) => `k${k}: 1\n`)}`),
  conflicts: (n: number) => cell(`session: a\n${times(n, (k) => `<<<<<<< a\nby: b${k}\n=======\nby: c\n>>>>>>> d\n`)}`),
  chain,
  machines: (n: number) => ({ text: times(n, (k) => `${engraver(`m${k}`)}---\nmarks: M1\nshots: centre\n`, '---\n') }),
  unmarked,
} satisfies Readonly<Record<string, (count: number) => Written>>;
