/**
 * One step of the filter: propagates by a move, or compares marks with their prediction. A mark that fails its gate is
 * set aside until its place is shot again; its repeat is judged here (`filter.ts` gives the rules).
 */
import { add, variance } from '../statistics/index.ts';
import type { FilterState, Discrepancy, GateFailure, Turn } from './filter-state.ts';
import { propagate, priorDistribution, type Distribution } from './distribution.ts';
import type { SegmentEvent, MarksEvent } from './segment.ts';
import { grouped, added, items, type Move, type System } from '../machine/index.ts';
import { agreement, pValue, GATE, innovation, type Innovation } from './innovation.ts';
import { isConfirmed, isEqual, isSamePlace, placeKey, repeatsBed, repeatsPlace } from './repeats.ts';
import { inBatches, isBeyondTape, update } from './update.ts';
import {
  addEvidence,
  anywhere,
  likelyCause,
  differ,
  partName,
  noEvidence,
  PAST,
  scatters,
  type Evidence,
} from './scatter.ts';
import type { LoggedReading } from './logged-reading.ts';

/**
 * The last contradiction that makes a reading stale: it counts instead of earlier readings at that station and after
 * it. Undefined if the reading is still valid.
 */
export function contradiction(
  { station, order }: Pick<LoggedReading, 'station' | 'order'>,
  contradictions: readonly GateFailure[],
): GateFailure | undefined {
  return contradictions.findLast(({ moment, readings }) => moment.order > order && readings[0]!.station <= station);
}

/** The readings with their standard uncertainty multiplied by `noise`. */
export function scaled(readings: readonly LoggedReading[], noise: number): readonly LoggedReading[] {
  return noise === 1 ? readings : readings.map((reading) => withNoise(reading, noise));
}

export function uncontradicted(
  readings: readonly LoggedReading[],
  contradictions: readonly GateFailure[],
): LoggedReading[] {
  return readings.filter((reading) => !contradiction(reading, contradictions));
}

export function isSame(one: LoggedReading, other: LoggedReading): boolean {
  return one.order === other.order && one.path === other.path;
}

export function filterStep(before: FilterState, event: SegmentEvent): FilterState {
  return 'move' in event ? applyMove(before, event.move) : applyMarks(before, event);
}

function applyMove(before: FilterState, move: Move): FilterState {
  const made = [...move.turns].map(
    ([key, turns]): Turn => ({ part: key.slice(0, key.indexOf('/')), screw: key.slice(key.indexOf('/') + 1), turns }),
  );
  const isRefitted = [...move.disturbed].some(([part, { place }]) => place > 0 && mayHaveScattered(before, part));
  return {
    ...before,
    distribution: propagate(before.distribution, move),
    turns: added(before.turns, made),
    // A part that was taken out, tightened or replaced has a new position, and is no longer loose.
    ...(isRefitted && { evidence: noEvidence(before.distribution.system), discrepancies: [] }),
  };
}

/** Whether scattering marks may be caused by this part, or none scatter and there is no evidence to keep. */
function mayHaveScattered({ discrepancies, evidence, distribution: { system } }: FilterState, part: string): boolean {
  return (
    discrepancies.length === 0 || likelyCause(evidence, system).parts.some((one) => partName(system, one) === part)
  );
}

/** An event that the log does not mention is rare: once in a hundred cells. Common practice, no source. */
const SLIP = Math.log(0.01);

function applyMarks(before: FilterState, event: MarksEvent): FilterState {
  const { validReadings } = event;
  const stillUnexplained = before.unexplained.filter(({ readings }) =>
    readings.some((reading) => validReadings.some((one) => isSame(one, reading))),
  );
  const start: FilterState = { ...before, unexplained: stillUnexplained };
  const batches = inBatches(event.readings.filter((reading) => !isBeyondTape(before.distribution, reading)));
  const { state: read, rejected } = batches.reduce((sofar, some) => applyBatch(sofar, some), {
    state: start,
    rejected: [] as readonly LoggedReading[],
  });
  const unmoved = turnsWithoutEffect(before, event);
  const resolved = unmoved
    ? restart(
        { ...read, distribution: before.distribution },
        { ...gateFailure(before, event), unmoved },
        validReadings,
        [],
      )
    : rejected.length === 0
      ? withConfirmed(read, event.readings)
      : resolve(read, before, event, rejected, validReadings);
  const discrepancies = [
    ...resolved.discrepancies.filter(
      ({ earlier: one, later: other }) =>
        validReadings.some((reading) => isSame(reading, one)) &&
        validReadings.some((reading) => isSame(reading, other)),
    ),
    ...discrepanciesIn(event, validReadings, before.noise),
  ];
  const [first] = event.readings;
  if (!first) return { ...resolved, discrepancies };
  const lastAt = new Map(before.lastAt);
  for (const reading of event.readings)
    if (reading.height === 0) lastAt.set(placeKey(reading), { reading, turns: turnsMade(before) });
  return {
    ...resolved,
    discrepancies,
    lastAt,
    responded: withResponse(before.responded, responseTo(before, event)),
    lastRead: new Map(before.lastRead).set(first.station, { turns: turnsMade(before), failed: rejected.length > 0 }),
  };
}

function withResponse(sofar: FilterState['responded'], to: readonly Turn[]): FilterState['responded'] {
  const parts = new Set(to.map(({ part }) => part));
  return parts.size === 0
    ? sofar
    : new Map([...sofar, ...[...parts].map((part) => [part, (sofar.get(part) ?? 0) + 1] as const)]);
}

/** Updates by the readings of a batch that pass their gate, and returns the others. */
function applyBatch(
  { state: before, rejected }: { readonly state: FilterState; readonly rejected: readonly LoggedReading[] },
  readings: readonly LoggedReading[],
): { readonly state: FilterState; readonly rejected: readonly LoggedReading[] } {
  const { distribution, noise } = before;
  const deviation = innovation(distribution, readings);
  if (!deviation)
    return {
      state: before,
      rejected: [...rejected, ...readings.filter((reading) => isMissUnexplained(distribution, reading))],
    };
  const { logDensity, rejected: rejectedGroups } = agreement(deviation, innovationCovariance(deviation, noise), GATE);
  const failing = new Set([
    ...rejectedGroups.flatMap(({ readings: some }) => some.map((k) => readings[k]!)),
    ...readings.filter(
      (reading) =>
        scatters(withNoise(reading, noise)) ||
        isPastTape(distribution.system, reading) ||
        isMissUnexplained(distribution, reading),
    ),
  ]);
  const cost = rejectedGroups.reduce(
    (sum, { rows }) => sum + anywhere(distribution.system, readings[0]!, rows.length),
    0,
  );
  const state: FilterState = {
    ...before,
    distribution: update(
      distribution,
      scaled(
        readings.filter((reading) => !failing.has(reading)),
        noise,
      ),
      failing.size === 0 && noise === 1 ? deviation : undefined,
    ),
    evidence: readings.some((one, k) => readings.slice(0, k).some((other) => isSamePlace(one, other)))
      ? evidenceAmong(before.evidence, distribution, readings)
      : addEvidence(before.evidence, distribution.system, deviation),
    logDensity: before.logDensity + logDensity + cost,
  };
  return { state, rejected: [...rejected, ...failing] };
}

/**
 * Evidence on the cause of scatter: each mark is compared with its prediction from the marks before it that agree.
 * Marks that agree with few others of their place come last: a misread mark at the front would make all others deviate.
 */
function evidenceAmong(before: Evidence, prior: Distribution, readings: readonly LoggedReading[]): Evidence {
  const agreeing = new Map(readings.map((reading) => [reading, fractionAgreeing(reading, readings)]));
  return readings
    .toSorted((one, other) => agreeing.get(other)! - agreeing.get(one)!)
    .reduce<{ readonly evidence: Evidence; readonly distribution: Distribution }>(
      ({ evidence, distribution }, reading) => {
        const deviation = innovation(distribution, [reading]);
        if (!deviation) return { evidence, distribution };
        const agrees = agreement(deviation, innovationCovariance(deviation, 1), GATE).rejected.length === 0;
        return {
          evidence: addEvidence(evidence, distribution.system, deviation),
          distribution: agrees ? update(distribution, [reading], deviation) : distribution,
        };
      },
      { evidence: before, distribution: prior },
    ).evidence;
}

/** Fraction of the marks of its place, its own included, that agree with it. */
function fractionAgreeing(reading: LoggedReading, all: readonly LoggedReading[]): number {
  const samePlace = all.filter((one) => isSamePlace(one, reading));
  return samePlace.length === 0 ? 1 : samePlace.filter((one) => !differ(one, reading)).length / samePlace.length;
}

function withNoise(reading: LoggedReading, noise: number): LoggedReading {
  return noise === 1
    ? reading
    : {
        ...reading,
        u: reading.u * noise,
        ...(reading.scatter && { scatter: { ...reading.scatter, u: reading.scatter.u * noise } }),
      };
}

/**
 * A mark further out than a tape usually reaches: a slip of the decimal point or of the unit, unless it is repeated.
 */
function isPastTape({ stations }: System, { station, height, right = 0, up = 0 }: LoggedReading): boolean {
  return height === 0 && Math.hypot(right, up) > stations[station]!.element.aperture / 2 + PAST;
}

/** Coverage factor inside the aperture from which on a beam is sure to hit its tape. */
const SURE_TO_LAND = 3.5;

/** No mark although the beam was predicted to hit the tape. */
function isMissUnexplained(distribution: Distribution, reading: LoggedReading): boolean {
  if (!reading.none || reading.height > 0) return false;
  const at = predictedAt(distribution, reading);
  return (
    at !== undefined &&
    Math.hypot(at.right, at.up) + SURE_TO_LAND * at.u <
      distribution.system.stations[reading.station]!.element.aperture / 2
  );
}

/** The predicted mark, mm, and the larger of its standard uncertainties. */
function predictedAt(
  distribution: Distribution,
  reading: LoggedReading,
): { readonly right: number; readonly up: number; readonly u: number } | undefined {
  const deviation = innovation(distribution, [{ ...reading, right: 0, up: 0 }]);
  if (!deviation) return undefined;
  const [right, up] = [-deviation.residuals[0]!, -deviation.residuals[1]!];
  return { right, up, u: Math.sqrt(Math.max(variance(deviation.predicted, 0), variance(deviation.predicted, 1))) };
}

export function innovationCovariance({ predicted, noise: reading }: Innovation, noise: number) {
  return add(predicted, reading, noise ** 2);
}

/** An unexplained mark was misread if a repeat at its place agrees with the prediction. */
function withConfirmed(read: FilterState, readings: readonly LoggedReading[]): FilterState {
  const isRepeated = (one: LoggedReading) =>
    readings.some((reading) => repeatsPlace(one, reading) || repeatsBed(one, reading));
  const misread = read.unexplained.flatMap((failure) => failure.readings.filter(isRepeated));
  if (misread.length === 0) return read;
  const unexplained = read.unexplained.flatMap((failure): GateFailure[] => {
    const rest = failure.readings.filter((one) => !isRepeated(one));
    return rest.length === 0 ? [] : [{ ...failure, readings: rest }];
  });
  return { ...read, unexplained, misread: [...read.misread, ...misread] };
}

/** Treats all marks of a cell as failing their gate. */
function gateFailure(before: FilterState, event: MarksEvent): GateFailure {
  return {
    moment: event.moment,
    station: event.station,
    readings: event.readings,
    before: before.distribution,
    prior: before.distribution,
    response: responseTo(before, event),
  };
}

function resolve(
  read: FilterState,
  before: FilterState,
  event: MarksEvent,
  rejected: readonly LoggedReading[],
  validReadings: readonly LoggedReading[],
): FilterState {
  // They repeat readings that are valid already: the model does not fit the machine, and the log is right.
  const rejectedBefore = [...read.misread, ...read.unexplained.flatMap(({ readings }) => readings)];
  const repeated = rejected.filter(
    (one) =>
      !scatters(one) &&
      validReadings.some(
        (then) =>
          repeatsPlace(then, one) && !differ(then, one) && !rejectedBefore.some((reading) => isSame(reading, then)),
      ),
  );
  if (repeated.length === rejected.length)
    return { ...read, distribution: update(read.distribution, scaled(rejected, read.noise)) };
  const failing: GateFailure = { ...gateFailure(before, event), readings: rejected, before: read.distribution };
  const first = read.unexplained.find(({ readings }) => isConfirmed(readings, rejected));
  if (first) return restart(read, first, validReadings, first.readings);
  const lastRead = before.lastRead.get(event.readings[0]!.station);
  // Twice in a row with a move in between: this is no misreading.
  if (lastRead?.failed && lastRead.turns < turnsMade(before) && rejected.every((one) => !scatters(one)))
    return restart(read, failing, validReadings, []);
  return { ...read, unexplained: [...read.unexplained, failing] };
}

/**
 * An event is missing in the log: the filter restarts with an unknown beam and the readings that are valid. It keeps
 * the estimates of screws, and those of rails from the segments before, since the stale marks may have bent them.
 */
function restart(
  read: FilterState,
  failure: GateFailure,
  validReadings: readonly LoggedReading[],
  agreeing: readonly LoggedReading[],
): FilterState {
  const all = [...read.contradictions, failure];
  const unexplained = read.unexplained.filter(
    (one) => one !== failure && !one.readings.some((reading) => agreeing.includes(reading)),
  );
  const rejectedBefore = [...read.misread, ...unexplained.flatMap(({ readings }) => readings)];
  const used = uncontradicted(validReadings, all).filter(
    (reading) => !rejectedBefore.some((one) => isSame(one, reading)) && !scatters(reading),
  );
  const { system } = read.distribution;
  const refund = failure.readings.reduce(
    (sum, reading) =>
      sum - anywhere(system, reading, (reading.right === undefined ? 0 : 1) + (reading.up === undefined ? 0 : 1)),
    0,
  );
  const fresh = priorDistribution(system, { screws: read.distribution, rails: read.rails });
  const deviation = innovation(fresh, failure.readings);
  // Comparisons with a prediction that is no longer valid are no evidence of scatter. Comparisons of the marks with
  // each other are.
  const evidence = evidenceAmong(
    noEvidence(system),
    fresh,
    uncontradicted(validReadings, all).filter((reading) => !isBeyondTape(fresh, reading)),
  );
  const logDensity = deviation
    ? agreement(deviation, innovationCovariance(deviation, read.noise), { rank: () => 0, rejects: () => false })
        .logDensity
    : 0;
  return {
    ...read,
    distribution: update(fresh, scaled(used, read.noise)),
    contradictions: all,
    unexplained,
    evidence,
    logDensity: read.logDensity + refund + SLIP + logDensity,
    slips: read.slips + 1,
  };
}

/** The turns that these marks respond to first: of mirrors before their station, since its previous marks. */
export function responseTo(sofar: FilterState, { readings: [first] }: MarksEvent): readonly Turn[] {
  const then = first && sofar.lastRead.get(first.station);
  return then ? turnsBefore(sofar, then.turns, first.station) : [];
}

/** Number of turns in the segment so far. */
function turnsMade({ turns }: FilterState): number {
  return turns?.size ?? 0;
}

/** Turns of mirrors before a station, without the first `after` ones. */
function turnsBefore({ turns, distribution: { system } }: FilterState, after: number, station: number): Turn[] {
  return items(turns, (turns?.size ?? 0) - after).filter(
    ({ part }) => system.stations.findIndex(({ name }) => name === part) < station,
  );
}

/** Turns: an eighth or more must show on a tape. */
const MUST_SHOW = 1 / 8;

/** Below this p-value a turn had no effect. Less strict than the gate, since the marks were repeated as well. */
const NO_EFFECT = 0.01;

/** The turns since the previous marks, if each mark is where it was although it should have moved. */
function turnsWithoutEffect(before: FilterState, event: MarksEvent): readonly Turn[] | undefined {
  const pairs = event.readings.flatMap((now) => {
    const then = now.height === 0 ? before.lastAt.get(placeKey(now)) : undefined;
    return then ? [{ now, then: then.reading, turns: then.turns }] : [];
  });
  const made = upstreamTurns(
    before,
    Math.max(0, ...pairs.map(({ turns }) => turns)),
    pairs[0]?.now.station ?? 0,
  ).filter(({ turns }) => Math.abs(turns) >= MUST_SHOW);
  if (made.length === 0 || !pairs.every(({ now, then }) => isEqual(then, now))) return undefined;
  const deviation = innovation(
    before.distribution,
    pairs.map(({ now }) => now),
  );
  return deviation && pValue(deviation, innovationCovariance(deviation, before.noise)) < NO_EFFECT ? made : undefined;
}

/** Net turns of each screw of mirrors before a station, without the first `after` turns. */
function upstreamTurns(sofar: FilterState, after: number, station: number): Turn[] {
  return grouped(turnsBefore(sofar, after, station), ({ part, screw }) => `${part} ${screw}`).map((some) => ({
    ...some[0]!,
    turns: some.reduce((sum, { turns: by }) => sum + by, 0),
  }));
}

function discrepanciesIn(
  { moment, readings }: MarksEvent,
  validReadings: readonly LoggedReading[],
  noise: number,
): Discrepancy[] {
  const wide = (reading: LoggedReading) => withNoise(reading, noise);
  const within = readings
    .filter((reading) => scatters(wide(reading)))
    .map((reading): Discrepancy => ({ moment, earlier: reading, later: reading }));
  const between = readings.flatMap((now) =>
    validReadings
      .filter(
        (then) =>
          then !== now &&
          (then.order < now.order || then.path < now.path) &&
          isSamePlace(then, now) &&
          differ(wide(then), wide(now)),
      )
      .map((then): Discrepancy => ({ moment, earlier: then, later: now })),
  );
  return [...within, ...between];
}
