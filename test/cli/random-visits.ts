/**
 * Logs of several visits, drawn: machines, limits, marks, turns, care, events, notes, mistakes. As people write them,
 * in any order.
 */
import type { Random } from '../simulation/random.ts';
import { MACHINE } from './logs.ts';

const STATIONS = ['M1', 'M2', 'M3', 'lens'] as const;

const maybe = (draw: Random, share: number, ...cells: string[]) => (draw.uniform() < share ? cells : []);
const whole = (draw: Random, most: number) => Math.floor(draw.uniform() * (most + 1));
const many = <T>(count: number, one: () => T): T[] => Array.from({ length: count }, one);

/** Now and then the tape is missed; a mark is read to half a millimetre. */
function mark(draw: Random, upright: boolean): string {
  if (draw.uniform() < 0.02) return 'none';
  const part = () => Math.round(2 * draw.normal()) / 2;
  const [right, up] = [part(), part()];
  return `${Math.abs(right)} ${right < 0 ? 'left' : 'right'} ${Math.abs(up)} ${upright ? (up < 0 ? 'front' : 'rear') : up < 0 ? 'down' : 'up'}`;
}

function marks(draw: Random): string {
  const station = draw.choose(STATIONS);
  const one = () => mark(draw, station === 'lens');
  switch (station) {
    case 'M1':
      return `marks: M1\nshots: ${one()}\n`;
    case 'M2':
      return `marks: M2\nshots: [{at: near, mark: ${one()}}, {at: far, mark: ${one()}}${draw.uniform() < 0.3 ? `, {at: 400 mm, mark: ${one()}}` : ''}]\n`;
    case 'M3':
      return `marks: M3\nshots: [{at: near, mark: ${one()}}, {at: far, with: {M2: far}, mark: ${one()}}${draw.uniform() < 0.3 ? `, {at: far, mark: ${one()}}, {at: near, with: {M2: far}, mark: ${one()}}` : ''}]\n`;
    default:
      return `marks: lens\nshots: [{mark: ${one()}}, {with: {M2: far, M3: far}, mark: ${one()}}]\n`;
  }
}

function limits(draw: Random): string {
  const centre = () => `{centre: ${draw.choose(['1 mm', '2 mm', '3 mm'])}}`;
  const stations = STATIONS.filter(() => draw.uniform() < 0.85).map((name) => `  ${name}: ${centre()}\n`);
  const off = maybe(
    draw,
    0.3,
    `rules: {${draw.choose(['log.noLimits', 'fire.unchecked', 'release.outside', 'release.stale'])}: {off: agreed}}\n`,
  );
  return `limits: drawn\nstations:\n${stations.join('') || `  M1: ${centre()}\n`}${off.join('')}`;
}

function machine(draw: Random): string {
  const text = MACHINE.replace('leg: 100 mm', `leg: ${draw.choose([90, 100, 110])} mm`);
  return draw.uniform() < 0.3
    ? text.replace(/screws: .*\n {4}thread.*\n {4}in.*\n {4}knob.*/, 'screws: {A: {}, B: {}}')
    : text.replace('source:', draw.uniform() < 0.3 ? 'care: {M2: every 3 months}\nsource:' : 'source:');
}

const CELLS: readonly ((draw: Random) => string)[] = [
  marks,
  marks,
  marks,
  (draw) =>
    `adjust: ${draw.choose(['M1', 'M2', 'M3'])}\nturn: {${draw.choose(['A', 'B'])}: ${draw.choose(['in', 'out'])} ${draw.choose(['1/8', '1/4', '1/2'])}}\n`,
  (draw) => `adjust: ${draw.choose(['M1', 'M2', 'M3'])}\nlock: ${draw.choose(['tight', 'loose'])}\n`,
  (draw) =>
    `care: ${draw.choose(STATIONS)}\nfound: ${draw.choose(['clean', 'dusty', 'hazy'])}\ndid: ${draw.choose(['inspected', 'cleaned in place', 'removed and cleaned'])}\n`,
  (draw) => `power: ${draw.choose(STATIONS)}\nreading: ${60 + whole(draw, 10)} W\n`,
  (draw) => `event: ${draw.choose(['collision', 'moved'])}\n`,
  () => 'checks: make safe\ndone: [eyewear]\nopen: [fire watch]\n',
  () => 'note: a tape was ordered\n',
  () => 'work: tilt\ntilt: M2.slope.right\n',
  () => 'marks: M2\nshots: {near: 1 rigth 0 up}\n',
  () => 'note: "no end\n',
  limits,
  machine,
];

const day = (days: number) => new Date(Date.UTC(2026, 0, 1 + days)).toISOString().slice(0, 10);

/** Any cell of any later date. */
export function anyCell(draw: Random, from: number): string {
  const cell = draw.choose([...CELLS, () => 'session: another\nby: rs\n', () => 'release: in service\nby: rs\n'])(draw);
  return draw.uniform() < 0.7 ? `${cell}date: ${day(from + whole(draw, 800))}\n` : cell;
}

export function anyVisit(draw: Random, from: number): string[] {
  const end = [
    ...maybe(
      draw,
      0.7,
      `release: ${draw.choose(['in service', 'withdrawn'])}\nby: kt\ndate: ${day(from + 1 + whole(draw, 3))}\n`,
    ),
  ];
  return [`session: visit\ndate: ${day(from)}\n`, ...many(3 + whole(draw, 8), () => draw.choose(CELLS)(draw)), ...end];
}

/** Days after the beginning of 2026 at which everything in it is over. */
export const OVER = 1000;

/** Cells of a log whose last visit is released; sometimes with a note below, which belongs to none. */
export function releasedLog(draw: Random): string[] {
  const visits = 1 + whole(draw, 2);
  const before = Array.from({ length: visits - 1 }, (_, k) => anyVisit(draw, 100 * k)).flat();
  const last = [
    ...(draw.uniform() < 0.8 ? [`session: last\ndate: ${day(100 * visits)}\n`] : []),
    ...many(4 + whole(draw, 8), () => draw.choose(CELLS)(draw)),
    marks(draw),
  ];
  return [
    machine(draw),
    limits(draw),
    ...before,
    ...last,
    `release: in service\nby: kt\ndate: ${day(100 * visits + 2)}\n`,
    ...maybe(draw, 0.2, `note: seen off\ndate: ${day(100 * visits + 40)}\n`),
  ];
}
