/** Estimated facts, one sentence each. Directions are the machine's; those of a mark are given in both frames. */
import {
  amountInWords,
  clockSense,
  lengthsIn,
  sense,
  type Direction,
  type LearntFact,
  type Off,
  type Units,
} from '../model/index.ts';
import { markInWords, screwInWords, bracketed, listed, placeInWords, stopInWords } from '../words/index.ts';
import { carriagesOf, frameOf } from '../verdict/index.ts';
import type { System } from '../machine/index.ts';

export function learntInWords(fact: LearntFact, system: System): string {
  switch (fact.kind) {
    case 'screw':
      return shareInWords(fact, system);
    case 'effect':
      return effectInWords(fact, system);
    case 'tube':
      return `The tube’s beam is ${placeOff(fact.off, system.machine.units)}.`;
    case 'inclination':
      return `The tube’s beam is inclined ${listed(fact.off.map(({ toward, by }) => `${mrad(by)} ${toward}`))} (± ${unsure(mrad, fact.off)}).`;
    case 'aperture':
      return `The aperture of ${fact.station} is ${placeOff(fact.off, system.machine.units)}.`;
    case 'carriage':
      return carriageInWords(fact, system);
    case 'rail':
      return `Halfway along its travel ${fact.rides === fact.element ? `the carriage of ${fact.element}` : `the ${fact.rides}`} is ${placeOff(fact.off, system.machine.units)}, relative to the line through its ends.`;
  }
}

type Fact<Kind> = Extract<LearntFact, { kind: Kind }>;

function shareInWords({ part, screw, share, u }: Fact<'screw'>, system: System): string {
  const uncertainty = `(± ${Math.ceil(100 * u)} %)`;
  const size = `${Math.round(100 * Math.abs(share))} % of the effect of its pitch ${uncertainty}`;
  const name = `Screw ${screwInWords(system, part, screw)} of ${part}`;
  return share < 0 ? `${name} works in the opposite direction, with ${size}.` : `${name} has ${size}.`;
}

function effectInWords(
  { part, screw, turns, station, at, with: others, right, up, u }: Fact<'effect'>,
  system: System,
): string {
  const measuredAt = system.stations.find(({ name }) => name === station)!;
  const place = placeInWords(carriagesOf(measuredAt), at, others);
  const way = markInWords(right, up, frameOf(measuredAt));
  const hand = system.screws.find((one) => one.part === part && one.screw === screw)?.mount.hand;
  return `Screw ${screwInWords(system, part, screw)} of ${part}: ${amountInWords(turns)} ${sense(turns)}${hand === 'left' ? ` (${clockSense(turns, hand)})` : ''} moves the mark on ${station}${bracketed(place)} ${way} (± ${unsure(lengthsIn(system.machine.units).doubt, [{ u: u.right }, { u: u.up }])}).`;
}

/** A right-handed turn is anticlockwise when seen against its axis; a person in front of the machine looks along y. */
const VIEWED = {
  x: { where: 'from the right', positive: 'anticlockwise', negative: 'clockwise' },
  y: { where: 'from the front', positive: 'clockwise', negative: 'anticlockwise' },
  z: { where: 'from above', positive: 'anticlockwise', negative: 'clockwise' },
} as const;

function carriageInWords({ element, rides, axis, from, to, turn, u }: Fact<'carriage'>, system: System): string {
  const { where, positive, negative } = VIEWED[axis];
  const what = rides === element ? `the carriage of ${element}` : `the ${rides}`;
  const [carriage] = carriagesOf({
    travels: system.carriages.filter((travel) => travel.element === element),
    units: system.machine.units,
  });
  const ends = [from, to].map((stop) => (carriage ? stopInWords(carriage, stop) : stop));
  return `Seen ${where}, ${what} turns ${mrad(Math.abs(turn))} ${turn > 0 ? positive : negative} on its way from ${ends.join(' to ')} (± ${unsure(mrad, [{ u }])}).`;
}

const STANDS: Readonly<Record<Direction, string>> = {
  up: 'high',
  down: 'low',
  left: 'to the left',
  right: 'to the right',
  front: 'to the front',
  rear: 'to the rear',
};

/** `2.1 mm low and 1.0 mm to the rear (± 0.4 mm)`. */
function placeOff(off: readonly Off[], units: Units): string {
  const { read, doubt } = lengthsIn(units);
  return `${listed(off.map(({ toward, by }) => `${read(by)} ${STANDS[toward]}`))} (± ${unsure(doubt, off)})`;
}

/** The largest uncertainty of several, rounded up in its unit, so that it is never understated. */
function unsure(
  inUnit: (value: number, round: (part: number) => number) => string,
  some: readonly { readonly u: number }[],
): string {
  return inUnit(Math.max(...some.map(({ u }) => u)), Math.ceil);
}

function mrad(value: number, round = Math.round): string {
  return `${(round(value * 10_000) / 10).toFixed(1)} mrad`;
}
