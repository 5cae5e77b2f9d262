/**
 * What the marks have taught of this machine: what its screws do, how its tube and apertures stand, how its carriages turn.
 *
 * Something is told where the marks have halved what was open before them, and where it then differs from nominal by more
 * than twice its standard uncertainty and by more than matters. What marks cannot tell (all heights together, say) keeps
 * its prior's width and so is never told. Units as in `unknowns.ts`; slopes are radians to a part in a million.
 */
import { opposite, type Learnt, type LearntFact, type Off, type PriorName } from '../model/index.ts';
import { after, yawOf, type Belief } from '../estimate/index.ts';
import { learntInWords } from './learnt-words.ts';
import {
  NO_MOVE,
  screwKey,
  withTurn,
  othersAt,
  queryAt,
  carriagesAt,
  prior,
  BEND,
  marksAt,
  sensitivity,
  type ScrewPlace,
  type Station,
  type Travel,
} from '../machine/index.ts';

/** Turns whose effect is told: an eighth is easily thought of. */
const TOLD = 1 / 8;
/** The least that is worth telling, whatever its uncertainty: a share of a turn, mm, rad. */
const MATTERS = { share: 0.05, place: 0.5, mark: 0.1, inclination: 0.001, carriage: 0.0003 } as const;

/** What is told differs from nominal by so many standard uncertainties. */
const SIGNIFICANT = 2;
/** What is told has at most this of the standard deviation that it had before any mark. */
const HALVED = 0.5;

interface Known {
  /** Less what is nominal. */
  readonly value: number;
  readonly u: number;
}

/** What is told, and how far it is from nominal in standard deviations of its prior: the most surprising comes first. */
interface Found {
  readonly fact: LearntFact;
  readonly surprise: number;
}

export function learnt(belief: Belief): Learnt[] {
  const {
    system: { screws, stations, carriages },
  } = belief;
  const found = [
    ...screws.flatMap((screw, order) => screwFact(belief, screw, order)),
    ...tubeFacts(belief),
    ...stations.flatMap((station) => apertureFact(belief, station)),
    ...carriages.flatMap((travel, order) => carriageFacts(belief, travel, order)),
  ];
  return found
    .sort((one, other) => other.surprise - one.surprise)
    .map(({ fact }) => ({ ...fact, say: learntInWords(fact, belief.system) }));
}

function isTold({ value, u }: Known, before: number, matters: number): boolean {
  return u <= HALVED * before && Math.abs(value) > SIGNIFICANT * u && Math.abs(value) >= matters;
}

function unknown({ values, covariance }: Belief, index: number): Known {
  return { value: values[index]!, u: Math.sqrt(covariance[index]![index]!) };
}

function screwFact(belief: Belief, screw: ScrewPlace, order: number): Found[] {
  return screw.effect ? shareFact(belief, screw, order) : effectFact(belief, screw, order);
}

/** Of `right` times one unknown and `up` times the next. */
function deviation({ covariance }: Belief, index: number, right: number, up: number): number {
  const entry = (row: number, column: number) => covariance[index + row]![index + column]!;
  return Math.sqrt(right ** 2 * entry(0, 0) + 2 * right * up * entry(0, 1) + up ** 2 * entry(1, 1));
}

/** A turn's slopes laid onto those that pitch and place say. */
function shareFact(belief: Belief, { part, screw, effect, doubt }: ScrewPlace, order: number): Found[] {
  const gain = belief.system.unknowns.gain(order);
  const { right, up } = effect!;
  const size = right ** 2 + up ** 2;
  const share = (belief.values[gain]! * right + belief.values[gain + 1]! * up) / size;
  const u = deviation(belief, gain, right, up) / size;
  if (!isTold({ value: share - 1, u }, doubt, MATTERS.share)) return [];
  return [{ fact: { kind: 'screw', part, screw, share, u }, surprise: Math.abs(share - 1) / doubt }];
}

/**
 * Seen at the farthest place of the station behind its mirror, through the exact trace. Of a screw that was never turned
 * the mount's other mirrors may teach as much; but nobody has seen it do so, and it is not told.
 */
function effectFact(belief: Belief, { part, screw, mirror }: ScrewPlace, order: number): Found[] {
  const { system: of } = belief;
  const station = of.stations[mirror + 1];
  if (!station || !belief.senses.has(screwKey(part, screw))) return [];
  const { own } = station;
  const carriages = carriagesAt(station, own ? { [own.element]: own.longest } : {});
  const query = queryAt(station, carriages);
  const before = sensitivity(belief, query);
  const then = marksAt(after(belief, withTurn(NO_MOVE, part, screw, TOLD)), [query]);
  if (!before || !then) return [];
  const gain = of.unknowns.gain(order);
  const slopes = of.unknowns.pose(of.mirrors.indexOf(mirror)) + 1;
  const spread = (by: Float64Array) => TOLD * deviation(belief, gain, by[slopes]!, by[slopes + 1]!);
  const [right, up] = [then[0]! - before.right, then[1]! - before.up];
  const u = { right: spread(before.byRight), up: spread(before.byUp) };
  const width = prior(of.machine, 'screwTilt');
  const halved = [unknown(belief, gain), unknown(belief, gain + 1)].every((one) => one.u <= HALVED * width);
  const distance = Math.hypot(right, up);
  if (!halved || distance < MATTERS.mark || distance <= SIGNIFICANT * Math.max(u.right, u.up)) return [];
  const fact = {
    kind: 'effect',
    part,
    screw,
    turns: TOLD,
    station: station.name,
    at: own ? nameOf(own, own.longest) : 'here',
    with: othersAt(station, carriages),
    right,
    up,
    u,
  } as const;
  return [{ fact, surprise: Math.hypot(belief.values[gain]!, belief.values[gain + 1]!) / width }];
}

function nameOf({ stops }: Travel, leg: number): string {
  return [...stops].find(([, stop]) => stop === leg)![0];
}

function tubeFacts(belief: Belief): Found[] {
  const [first] = belief.system.stations;
  return [
    ...offFact(belief, first!, 0, 'tubeOffset', MATTERS.place, (off) => ({ kind: 'tube', off })),
    ...offFact(belief, first!, 2, 'tubeAngle', MATTERS.inclination, (off) => ({ kind: 'inclination', off })),
  ];
}

function apertureFact(belief: Belief, station: Station): Found[] {
  return offFact(
    belief,
    station,
    belief.system.unknowns.aperture(station.index),
    'apertureOffset',
    MATTERS.place,
    (off) => ({ kind: 'aperture', station: station.name, off }),
  );
}

/** Two unknowns, right and up as one looks along the beam that arrives at a station, in the machine's directions. */
// biome-ignore lint/complexity/useMaxParams: one unknown in all its parts
function offFact(
  belief: Belief,
  { viewer }: Station,
  index: number,
  name: PriorName,
  matters: number,
  told: (off: Off[]) => LearntFact,
): Found[] {
  const width = prior(belief.system.machine, name);
  const parts = [viewer.rightWord, viewer.upWord].map((word, axis) => ({ ...unknown(belief, index + axis), word }));
  const off = parts
    .filter((part) => isTold(part, width, matters))
    .map(({ value, u, word }): Off => ({ toward: value > 0 ? word : opposite(word), by: Math.abs(value), u }));
  return off.length === 0 ? [] : [{ fact: told(off), surprise: Math.max(...off.map(({ by }) => by)) / width }];
}

const AXES = ['x', 'y', 'z'] as const;

function carriageFacts(belief: Belief, travel: Travel, order: number): Found[] {
  const { system: of } = belief;
  const yaw = yawOf(of, travel);
  const { element, rides, shortest, longest } = travel;
  const bend = offFact(
    belief,
    of.stations[travel.index]!,
    of.unknowns.carriage(order) + BEND,
    'railBend',
    MATTERS.place,
    (off) => ({ kind: 'rail', element, rides, off }),
  );
  return [
    ...bend,
    ...AXES.flatMap((axis, k): Found[] => {
      const width = prior(of.machine, k === yaw ? 'racking' : 'carriageTurn');
      const turn = unknown(belief, of.unknowns.carriage(order) + k);
      if (!isTold(turn, width, MATTERS.carriage)) return [];
      const fact = {
        kind: 'carriage',
        element,
        rides,
        axis,
        from: nameOf(travel, shortest),
        to: nameOf(travel, longest),
        turn: turn.value,
        u: turn.u,
      } as const;
      return [{ fact, surprise: Math.abs(turn.value) / width }];
    }),
  ];
}
