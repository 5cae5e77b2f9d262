/**
 * Facts about this machine that the marks have shown: the effect of its screws, offsets of its tube and apertures,
 * turns of its carriages.
 *
 * A value is reported if the marks have at least halved its standard uncertainty, and if it differs from nominal by
 * more than twice that and by more than a minimum. What marks cannot determine (a height common to all elements, for
 * example) keeps its prior uncertainty and is never reported. Units as in `unknowns.ts`; slopes are radians to a part
 * in a million.
 */
import { opposite, type Learnt, type LearntFact, type Off, type PriorName } from '../model/index.ts';
import { covarianceBetween, varianceAt } from '../statistics/index.ts';
import { propagate, yawOf, type Distribution } from '../estimate/index.ts';
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

/** Turns for which the effect is reported: an eighth is easy to imagine. */
const REPORTED_TURN = 1 / 8;
/** Minimum deviation that is reported: a fraction of the nominal effect, mm, rad. */
const MATTERS = { share: 0.05, place: 0.5, mark: 0.1, inclination: 0.001, carriage: 0.0003 } as const;

/** Coverage factor of a reported deviation from nominal. */
const SIGNIFICANT = 2;
/** Maximum standard deviation of a reported value, as a fraction of its prior's. */
const HALVED = 0.5;

interface Marginal {
  /** Deviation from nominal. */
  readonly value: number;
  readonly u: number;
}

/** A reported fact, and its deviation from nominal in standard deviations of its prior: the largest comes first. */
interface RankedFact {
  readonly fact: LearntFact;
  readonly deviation: number;
}

/** The facts that the estimate has shown, the most significant first. */
export function learntFacts(distribution: Distribution): Learnt[] {
  const {
    system: { screws, stations, carriages },
  } = distribution;
  const facts = [
    ...screws.flatMap((screw, order) => screwFact(distribution, screw, order)),
    ...tubeFacts(distribution),
    ...stations.flatMap((station) => apertureFact(distribution, station)),
    ...carriages.flatMap((travel, order) => carriageFacts(distribution, travel, order)),
  ];
  return facts
    .sort((one, other) => other.deviation - one.deviation)
    .map(({ fact }) => ({ ...fact, say: learntInWords(fact, distribution.system) }));
}

function isReported({ value, u }: Marginal, before: number, matters: number): boolean {
  return u <= HALVED * before && Math.abs(value) > SIGNIFICANT * u && Math.abs(value) >= matters;
}

function marginal({ values, covariance }: Distribution, index: number): Marginal {
  return { value: values[index]!, u: Math.sqrt(varianceAt(covariance, index)) };
}

function screwFact(distribution: Distribution, screw: ScrewPlace, order: number): RankedFact[] {
  return screw.effect ? shareFact(distribution, screw, order) : effectFact(distribution, screw, order);
}

/** Standard deviation of `right` times one unknown plus `up` times the next. */
function deviation({ covariance }: Distribution, index: number, right: number, up: number): number {
  const entry = (row: number, column: number) => covarianceBetween(covariance, index + row, index + column);
  return Math.sqrt(right ** 2 * entry(0, 0) + 2 * right * up * entry(0, 1) + up ** 2 * entry(1, 1));
}

/** The estimated slopes of a turn, projected onto the nominal ones. */
function shareFact(
  distribution: Distribution,
  { part, screw, effect, doubt }: ScrewPlace,
  order: number,
): RankedFact[] {
  const gain = distribution.system.unknowns.gain(order);
  const { right, up } = effect!;
  const size = right ** 2 + up ** 2;
  const share = (distribution.values[gain]! * right + distribution.values[gain + 1]! * up) / size;
  const u = deviation(distribution, gain, right, up) / size;
  if (!isReported({ value: share - 1, u }, doubt, MATTERS.share)) return [];
  return [{ fact: { kind: 'screw', part, screw, share, u }, deviation: Math.abs(share - 1) / doubt }];
}

/**
 * The effect at the longest leg of the station after its mirror, through the exact trace. For a screw that was never
 * turned, other mirrors in the same mount may determine it; but it was not observed and is not reported.
 */
function effectFact(distribution: Distribution, { part, screw, mirror }: ScrewPlace, order: number): RankedFact[] {
  const { system } = distribution;
  const station = system.stations[mirror + 1];
  if (!station || !distribution.senses.has(screwKey(part, screw))) return [];
  const { own } = station;
  const carriages = carriagesAt(station, own ? { [own.element]: own.longest } : {});
  const query = queryAt(station, carriages);
  const before = sensitivity(distribution, query);
  const then = marksAt(propagate(distribution, withTurn(NO_MOVE, part, screw, REPORTED_TURN)), [query]);
  if (!before || !then) return [];
  const gain = system.unknowns.gain(order);
  const slopes = system.unknowns.pose(system.mirrors.indexOf(mirror)) + 1;
  const standardDeviation = (by: Float64Array) =>
    REPORTED_TURN * deviation(distribution, gain, by[slopes]!, by[slopes + 1]!);
  const [right, up] = [then[0]! - before.right, then[1]! - before.up];
  const u = { right: standardDeviation(before.byRight), up: standardDeviation(before.byUp) };
  const width = prior(system.machine, 'screwTilt');
  const halved = [marginal(distribution, gain), marginal(distribution, gain + 1)].every(
    (one) => one.u <= HALVED * width,
  );
  const distance = Math.hypot(right, up);
  if (!halved || distance < MATTERS.mark || distance <= SIGNIFICANT * Math.max(u.right, u.up)) return [];
  const fact = {
    kind: 'effect',
    part,
    screw,
    turns: REPORTED_TURN,
    station: station.name,
    at: own ? stopName(own, own.longest) : 'here',
    with: othersAt(station, carriages),
    right,
    up,
    u,
  } as const;
  return [{ fact, deviation: Math.hypot(distribution.values[gain]!, distribution.values[gain + 1]!) / width }];
}

function stopName({ stops }: Travel, leg: number): string {
  return [...stops].find(([, stop]) => stop === leg)![0];
}

function tubeFacts(distribution: Distribution): RankedFact[] {
  const [first] = distribution.system.stations;
  return [
    ...offFact(distribution, first!, 0, 'tubeOffset', MATTERS.place, (off) => ({ kind: 'tube', off })),
    ...offFact(distribution, first!, 2, 'tubeAngle', MATTERS.inclination, (off) => ({ kind: 'inclination', off })),
  ];
}

function apertureFact(distribution: Distribution, station: Station): RankedFact[] {
  return offFact(
    distribution,
    station,
    distribution.system.unknowns.aperture(station.index),
    'apertureOffset',
    MATTERS.place,
    (off) => ({ kind: 'aperture', station: station.name, off }),
  );
}

/** A fact of two unknowns, right and up along the beam that arrives at a station, in the machine's directions. */
// biome-ignore lint/complexity/useMaxParams: one unknown in all its parts
function offFact(
  distribution: Distribution,
  { viewer }: Station,
  index: number,
  name: PriorName,
  matters: number,
  toFact: (off: Off[]) => LearntFact,
): RankedFact[] {
  const width = prior(distribution.system.machine, name);
  const parts = [viewer.rightWord, viewer.upWord].map((word, axis) => ({
    ...marginal(distribution, index + axis),
    word,
  }));
  const off = parts
    .filter((part) => isReported(part, width, matters))
    .map(({ value, u, word }): Off => ({ toward: value > 0 ? word : opposite(word), by: Math.abs(value), u }));
  return off.length === 0 ? [] : [{ fact: toFact(off), deviation: Math.max(...off.map(({ by }) => by)) / width }];
}

const AXES = ['x', 'y', 'z'] as const;

function carriageFacts(distribution: Distribution, travel: Travel, order: number): RankedFact[] {
  const { system } = distribution;
  const yaw = yawOf(system, travel);
  const { element, rides, shortest, longest } = travel;
  const bend = offFact(
    distribution,
    system.stations[travel.index]!,
    system.unknowns.carriage(order) + BEND,
    'railBend',
    MATTERS.place,
    (off) => ({ kind: 'rail', element, rides, off }),
  );
  return [
    ...bend,
    ...AXES.flatMap((axis, k): RankedFact[] => {
      const width = prior(system.machine, k === yaw ? 'racking' : 'carriageTurn');
      const turn = marginal(distribution, system.unknowns.carriage(order) + k);
      if (!isReported(turn, width, MATTERS.carriage)) return [];
      const fact = {
        kind: 'carriage',
        element,
        rides,
        axis,
        from: stopName(travel, shortest),
        to: stopName(travel, longest),
        turn: turn.value,
        u: turn.u,
      } as const;
      return [{ fact, deviation: Math.abs(turn.value) / width }];
    }),
  ];
}
