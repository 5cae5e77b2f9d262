/** What was learnt, as one sentence each. Directions are the machine's; a mark's are told both ways. */
import { sense, turnsInWords, type Direction, type LearntFact, type Off } from '../model/index.ts';
import { markInWords } from './reasons.ts';
import { frameOf } from './report.ts';
import type { System } from './system.ts';
import { listed, placeInWords } from './words.ts';

export function learntInWords(fact: LearntFact, of: System): string {
  switch (fact.kind) {
    case 'screw': return shareInWords(fact);
    case 'effect': return effectInWords(fact, of);
    case 'tube': return `The tube’s beam enters ${placeOff(fact.off)}.`;
    case 'inclination': return `The tube’s beam is inclined ${listed(fact.off.map(({ toward, by }) => `${mrad(by)} ${toward}`))} (± ${unsure(mrad, fact.off)}).`;
    case 'aperture': return `The aperture of ${fact.station} stands ${placeOff(fact.off)}.`;
    case 'carriage': return carriageInWords(fact);
  }
}

type Fact<Kind> = Extract<LearntFact, { kind: Kind }>;

function shareInWords({ part, screw, share, u }: Fact<'screw'>): string {
  const sure = `(± ${Math.ceil(100 * u)} %)`;
  const size = `${Math.round(100 * Math.abs(share))} % of what its pitch says ${sure}`;
  return share < 0 ? `Screw ${screw} of ${part} works the other way round, at ${size}.` : `Screw ${screw} of ${part} does ${size}.`;
}

function effectInWords({ part, screw, turns, station, at, with: others, right, up, u }: Fact<'effect'>, of: System): string {
  const seen = of.stations.find(({ name }) => name === station)!;
  const place = placeInWords(seen.travels, at, others);
  const way = markInWords(right, up, frameOf(seen));
  return `Screw ${screw} of ${part}: ${turnsInWords(turns)} turn ${sense(turns)} moves the mark on ${station}${place === '' ? '' : ` (${place})`} ${way} (± ${unsure(millimetres, [{ u: u.right }, { u: u.up }])}).`;
}

/** Against its axis a right-handed turn is seen to run anticlockwise; whoever stands in front looks along y. */
const SEEN = {
  x: { where: 'from the right', positive: 'anticlockwise', negative: 'clockwise' },
  y: { where: 'from the front', positive: 'clockwise', negative: 'anticlockwise' },
  z: { where: 'from above', positive: 'anticlockwise', negative: 'clockwise' },
} as const;

function carriageInWords({ element, rides, axis, from, to, turn, u }: Fact<'carriage'>): string {
  const { where, positive, negative } = SEEN[axis];
  const what = rides === element ? `the carriage of ${element}` : `the ${rides}`;
  return `Seen ${where}, ${what} turns ${mrad(Math.abs(turn))} ${turn > 0 ? positive : negative} on its way from ${from} to ${to} (± ${unsure(mrad, [{ u }])}).`;
}

const STANDS: Readonly<Record<Direction, string>> = { up: 'high', down: 'low', left: 'to the left', right: 'to the right', front: 'to the front', rear: 'to the rear' };

/** `2.1 mm low and 1.0 mm to the rear (± 0.4 mm)`. */
function placeOff(off: readonly Off[]): string {
  return `${listed(off.map(({ toward, by }) => `${millimetres(by)} ${STANDS[toward]}`))} (± ${unsure(millimetres, off)})`;
}

/** The largest uncertainty of several, rounded up in its unit: it is never told as less than it is. */
function unsure(inUnit: (value: number, round: (tenths: number) => number) => string, some: readonly { readonly u: number }[]): string {
  return inUnit(Math.max(...some.map(({ u }) => u)), Math.ceil);
}

function millimetres(value: number, round = Math.round): string {
  return `${(round(value * 10) / 10).toFixed(1)} mm`;
}

function mrad(value: number, round = Math.round): string {
  return `${(round(value * 10_000) / 10).toFixed(1)} mrad`;
}
