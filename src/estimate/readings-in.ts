/**
 * One happening further: a move is predicted, marks are compared with the prediction. A mark that fails its gate is set aside
 * until its place is shot again; what the repeat says of it is decided here (`account.ts` says how).
 */
import { matrix } from '../statistics/index.ts';
import type { Account, Apart, Odd, Turn } from './account-types.ts';
import { after, priorOf, type Belief } from './belief.ts';
import type { Happening, Read } from './chapter.ts';
import { grouped, sameCarriages, added, items, type Move, type System } from '../machine/index.ts';
import { agreement, chanceOf, GATE, innovation, sumOf, tapeKey, type Innovation } from './innovation.ts';
import { leanAlike } from './leans.ts';
import { inBatches, isBeyondTape, observe } from './observe.ts';
import {
  addEvidence,
  anywhere,
  causeOf,
  differ,
  nameOf,
  noEvidence,
  PAST,
  scatters,
  type Evidence,
} from './scatter.ts';
import type { Taken } from './taken.ts';

/**
 * The last odd marks that stand against a reading: they hold instead of what was read earlier, there and on what lies
 * behind. Nothing where the reading still holds.
 */
export function contradiction(
  { station, order }: Pick<Taken, 'station' | 'order'>,
  odd: readonly Odd[],
): Odd | undefined {
  return odd.findLast(({ moment, readings }) => moment.order > order && readings[0]!.station <= station);
}

export function scaled(readings: readonly Taken[], noise: number): readonly Taken[] {
  return noise === 1 ? readings : readings.map((reading) => withNoise(reading, noise));
}

export function uncontradicted(readings: readonly Taken[], odd: readonly Odd[]): Taken[] {
  return readings.filter((reading) => !contradiction(reading, odd));
}

export function isSame(one: Taken, other: Taken): boolean {
  return one.order === other.order && one.path === other.path;
}

export function step(before: Account, what: Happening): Account {
  return 'move' in what ? moveIn(before, what.move) : readIn(before, what);
}

function moveIn(before: Account, move: Move): Account {
  const made = [...move.turns].map(
    ([key, turns]): Turn => ({ part: key.slice(0, key.indexOf('/')), screw: key.slice(key.indexOf('/') + 1), turns }),
  );
  const taken = [...move.disturbed].some(([part, { place }]) => place > 0 && mayHaveScattered(before, part));
  return {
    ...before,
    belief: after(before.belief, move),
    turns: added(before.turns, made),
    // A part that was out, tightened or replaced stands anew: if it was loose it is so no longer.
    ...(taken && { evidence: noEvidence(before.belief.system), apart: [] }),
  };
}

/** Whether marks that scatter may do so because of this part; where none do there is nothing to keep. */
function mayHaveScattered({ apart, evidence, belief: { system } }: Account, part: string): boolean {
  return apart.length === 0 || causeOf(evidence, system).parts.some((one) => nameOf(system, one) === part);
}

/** What the log does not say happens rarely: once in a hundred cells. Common practice, no source. */
const SLIP = Math.log(0.01);

function readIn(before: Account, what: Read): Account {
  const { holding } = what;
  const waiting = before.unexplained.filter(({ readings }) =>
    readings.some((reading) => holding.some((one) => isSame(one, reading))),
  );
  const start: Account = { ...before, unexplained: waiting };
  const batches = inBatches(what.readings.filter((reading) => !isBeyondTape(before.belief, reading)));
  const { account: read, rejected } = batches.reduce((sofar, some) => batchIn(sofar, some), {
    account: start,
    rejected: [] as readonly Taken[],
  });
  const unmoved = turnsWithoutEffect(before, what);
  const resolved = unmoved
    ? restarted({ ...read, belief: before.belief }, { ...oddOf(before, what), unmoved }, holding, [])
    : rejected.length === 0
      ? confirmed(read, what.readings)
      : resolve(read, before, what, rejected, holding);
  const apart = [
    ...resolved.apart.filter(
      ({ one, other }) =>
        holding.some((reading) => isSame(reading, one)) && holding.some((reading) => isSame(reading, other)),
    ),
    ...apartIn(what, holding, before.noise),
  ];
  const [first] = what.readings;
  if (!first) return { ...resolved, apart };
  const lastAt = new Map(before.lastAt);
  for (const reading of what.readings)
    if (reading.height === 0) lastAt.set(placeKey(reading), { reading, turns: turnsMade(before) });
  return {
    ...resolved,
    apart,
    lastAt,
    responded: withResponse(before.responded, responseTo(before, what)),
    seen: new Map(before.seen).set(first.station, { turns: turnsMade(before), failed: rejected.length > 0 }),
  };
}

function withResponse(sofar: Account['responded'], to: readonly Turn[]): Account['responded'] {
  const parts = new Set(to.map(({ part }) => part));
  return parts.size === 0
    ? sofar
    : new Map([...sofar, ...[...parts].map((part) => [part, (sofar.get(part) ?? 0) + 1] as const)]);
}

/** The readings of a cell that agree with the prediction are used; the others are returned. */
function batchIn(
  { account: before, rejected }: { readonly account: Account; readonly rejected: readonly Taken[] },
  readings: readonly Taken[],
): { readonly account: Account; readonly rejected: readonly Taken[] } {
  const { belief, noise } = before;
  const deviation = innovation(belief, readings);
  if (!deviation)
    return {
      account: before,
      rejected: [...rejected, ...readings.filter((reading) => isMissUnexplained(belief, reading))],
    };
  const { logDensity, out } = agreement(deviation, covarianceOf(deviation, noise), GATE);
  const odd = new Set([
    ...out.flatMap(({ readings: some }) => some.map((k) => readings[k]!)),
    ...readings.filter(
      (reading) =>
        scatters(withNoise(reading, noise)) || isPastTape(belief.system, reading) || isMissUnexplained(belief, reading),
    ),
  ]);
  const cost = out.reduce((sum, { rows }) => sum + anywhere(belief.system, readings[0]!, rows.length), 0);
  const account: Account = {
    ...before,
    belief: observe(
      belief,
      scaled(
        readings.filter((reading) => !odd.has(reading)),
        noise,
      ),
      deviation.parts.filter((_, part) => !odd.has(readings[part >> 1]!)),
    ),
    evidence: readings.some((one, k) => readings.slice(0, k).some((other) => isAtOnePlace(one, other)))
      ? evidenceAmong(before.evidence, belief, readings)
      : addEvidence(before.evidence, belief.system, deviation),
    logDensity: before.logDensity + logDensity + cost,
  };
  return { account, rejected: [...rejected, ...odd] };
}

/**
 * What marks say of scatter, each given those before it that agree: marks of one place are compared with each other. Those that
 * few others of their place agree with come last: a misread one that came first would make strangers of all the rest.
 */
function evidenceAmong(before: Evidence, prior: Belief, readings: readonly Taken[]): Evidence {
  const share = new Map(readings.map((reading) => [reading, shareAgreeing(reading, readings)]));
  return readings
    .toSorted((one, other) => share.get(other)! - share.get(one)!)
    .reduce<{ readonly evidence: Evidence; readonly belief: Belief }>(
      ({ evidence, belief }, reading) => {
        const deviation = innovation(belief, [reading]);
        if (!deviation) return { evidence, belief };
        const agrees = agreement(deviation, covarianceOf(deviation, 1), GATE).out.length === 0;
        return {
          evidence: addEvidence(evidence, belief.system, deviation),
          belief: agrees ? observe(belief, [reading], deviation.parts) : belief,
        };
      },
      { evidence: before, belief: prior },
    ).evidence;
}

/** Of the marks of its place, its own among them, those that are where it is. */
function shareAgreeing(reading: Taken, all: readonly Taken[]): number {
  const here = all.filter((one) => isAtOnePlace(one, reading));
  return here.length === 0 ? 1 : here.filter((one) => !differ(one, reading)).length / here.length;
}

function withNoise(one: Taken, noise: number): Taken {
  return noise === 1
    ? one
    : { ...one, u: one.u * noise, ...(one.scatter && { scatter: { ...one.scatter, u: one.scatter.u * noise } }) };
}

/** A mark further out than tape usually reaches: a slip of the decimal point or of the unit, unless it comes again. */
function isPastTape({ stations }: System, { station, height, right = 0, up = 0 }: Taken): boolean {
  return height === 0 && Math.hypot(right, up) > stations[station]!.element.aperture / 2 + PAST;
}

/** Standard uncertainties inside the aperture from which on a beam is sure to land on its tape. */
const SURE_TO_LAND = 3.5;

/** No mark where the beam was predicted to land. */
function isMissUnexplained(belief: Belief, reading: Taken): boolean {
  if (!reading.none || reading.height > 0) return false;
  const at = predictedAt(belief, reading);
  return (
    at !== undefined &&
    Math.hypot(at.right, at.up) + SURE_TO_LAND * at.u < belief.system.stations[reading.station]!.element.aperture / 2
  );
}

/** Where a mark is predicted, mm, and the larger of its standard uncertainties. */
function predictedAt(
  belief: Belief,
  reading: Taken,
): { readonly right: number; readonly up: number; readonly u: number } | undefined {
  const deviation = innovation(belief, [{ ...reading, right: 0, up: 0 }]);
  if (!deviation) return undefined;
  const [right, up] = [-deviation.offsets[0]!, -deviation.offsets[1]!];
  return { right, up, u: Math.sqrt(Math.max(deviation.predicted.data[0]!, deviation.predicted.data[3]!)) };
}

export function covarianceOf({ predicted, noise: reading }: Innovation, noise: number) {
  return sumOf(
    predicted,
    matrix(
      reading.rows,
      reading.columns,
      reading.data.map((entry) => entry * noise ** 2),
    ),
  );
}

/** Whatever was unexplained at a place where the prediction has now been met was misread. */
function confirmed(read: Account, readings: readonly Taken[]): Account {
  const settled = (one: Taken) =>
    readings.some((reading) => isOfOnePlace(one, reading) || isBelowOnePlace(one, reading));
  const misread = read.unexplained.flatMap((odd) => odd.readings.filter(settled));
  if (misread.length === 0) return read;
  const unexplained = read.unexplained.flatMap((odd): Odd[] => {
    const rest = odd.readings.filter((one) => !settled(one));
    return rest.length === 0 ? [] : [{ ...odd, readings: rest }];
  });
  return { ...read, unexplained, misread: [...read.misread, ...misread] };
}

/** All marks of a cell as marks that did not come where they were predicted. */
function oddOf(before: Account, what: Read): Odd {
  return {
    moment: what.moment,
    station: what.station,
    readings: what.readings,
    before: before.belief,
    prior: before.belief,
    response: responseTo(before, what),
  };
}

function resolve(
  read: Account,
  before: Account,
  what: Read,
  rejected: readonly Taken[],
  holding: readonly Taken[],
): Account {
  // The same as what already holds: it is the machine that the model does not fit, not the log.
  const sets = [...read.misread, ...read.unexplained.flatMap(({ readings }) => readings)];
  const steady = rejected.filter(
    (one) =>
      !scatters(one) &&
      holding.some((then) => isOfOnePlace(then, one) && !differ(then, one) && !sets.some((set) => isSame(set, then))),
  );
  if (steady.length === rejected.length) return { ...read, belief: observe(read.belief, scaled(rejected, read.noise)) };
  const odd: Odd = { ...oddOf(before, what), readings: rejected, before: read.belief };
  const first = read.unexplained.find(({ readings }) => comeAgain(readings, rejected));
  if (first) return restarted(read, first, holding, first.readings);
  const kept = before.seen.get(what.readings[0]!.station);
  // Twice in a row with something moved in between: no misreading.
  if (kept?.failed && kept.turns < turnsMade(before) && rejected.every((one) => !scatters(one)))
    return restarted(read, odd, holding, []);
  return { ...read, unexplained: [...read.unexplained, odd] };
}

/** What happened is not in the log: the beam is anew unknown, but for the marks that hold; of the past what screws do, and how rails are bent as far as the chapters before have shown: marks that no longer hold may have bent them. */
function restarted(read: Account, odd: Odd, holding: readonly Taken[], agreeing: readonly Taken[]): Account {
  const all = [...read.odd, odd];
  const unexplained = read.unexplained.filter(
    (one) => one !== odd && !one.readings.some((reading) => agreeing.includes(reading)),
  );
  const set = [...read.misread, ...unexplained.flatMap(({ readings }) => readings)];
  const held = uncontradicted(holding, all).filter(
    (reading) => !set.some((one) => isSame(one, reading)) && !scatters(reading),
  );
  const { system } = read.belief;
  const refund = odd.readings.reduce(
    (sum, reading) =>
      sum - anywhere(system, reading, (reading.right === undefined ? 0 : 1) + (reading.up === undefined ? 0 : 1)),
    0,
  );
  const fresh = priorOf(system, { screws: read.belief, rails: read.rails });
  const deviation = innovation(fresh, odd.readings);
  // What was compared with a prediction that no longer holds says nothing of scatter; the marks among each other do.
  const evidence = evidenceAmong(
    noEvidence(system),
    fresh,
    uncontradicted(holding, all).filter((reading) => !isBeyondTape(fresh, reading)),
  );
  const logDensity = deviation
    ? agreement(deviation, covarianceOf(deviation, read.noise), { rank: () => 0, isOut: () => false }).logDensity
    : 0;
  return {
    ...read,
    belief: observe(fresh, scaled(held, read.noise)),
    odd: all,
    unexplained,
    evidence,
    logDensity: read.logDensity + refund + SLIP + logDensity,
    slips: read.slips + 1,
  };
}

/** The turns to which these marks are the first response: of mirrors before their station, since its marks before. */
export function responseTo(sofar: Account, { readings: [first] }: Read): readonly Turn[] {
  const then = first && sofar.seen.get(first.station);
  return then ? turnsBefore(sofar, then.turns, first.station) : [];
}

/** In the chapter so far. */
function turnsMade({ turns }: Account): number {
  return turns?.size ?? 0;
}

/** Of mirrors before a station, after so many turns. */
function turnsBefore({ turns, belief: { system } }: Account, after: number, station: number): Turn[] {
  return items(turns, (turns?.size ?? 0) - after).filter(
    ({ part }) => system.stations.findIndex(({ name }) => name === part) < station,
  );
}

/** An eighth of a turn or more: what must be seen on a tape. */
const MUST_SHOW = 1 / 8;

/** Below this probability a turn that moved nothing is no chance: less strict than the gate, since the marks came again as well. */
const NO_EFFECT = 0.01;

/** The turns since the marks before, where each mark stands where it stood before them although it should have moved. */
function turnsWithoutEffect(before: Account, what: Read): readonly Turn[] | undefined {
  const pairs = what.readings.flatMap((now) => {
    const then = now.height === 0 ? before.lastAt.get(placeKey(now)) : undefined;
    return then ? [{ now, then: then.reading, turns: then.turns }] : [];
  });
  const made = upstreamSums(before, Math.max(0, ...pairs.map(({ turns }) => turns)), pairs[0]?.now.station ?? 0).filter(
    ({ turns }) => Math.abs(turns) >= MUST_SHOW,
  );
  if (made.length === 0 || !pairs.every(({ now, then }) => isEqual(then, now))) return undefined;
  const deviation = innovation(
    before.belief,
    pairs.map(({ now }) => now),
  );
  return deviation && chanceOf(deviation, covarianceOf(deviation, before.noise)) < NO_EFFECT ? made : undefined;
}

/** What each screw of mirrors before a station was turned in all, after so many turns. */
function upstreamSums(sofar: Account, after: number, station: number): Turn[] {
  return grouped(turnsBefore(sofar, after, station), ({ part, screw }) => `${part} ${screw}`).map((some) => ({
    ...some[0]!,
    turns: some.reduce((sum, { turns: by }) => sum + by, 0),
  }));
}

function placeKey({ station, carriages }: Taken): string {
  return `${station} ${JSON.stringify(carriages)}`;
}

/** Standard uncertainties of a difference within which two marks are the same. */
const EQUAL = 2.5;

function isEqual(one: Taken, other: Taken): boolean {
  const parts = (['right', 'up'] as const).filter((part) => one[part] !== undefined && other[part] !== undefined);
  return (
    parts.length > 0 && parts.every((part) => Math.abs(one[part]! - other[part]!) <= EQUAL * Math.hypot(one.u, other.u))
  );
}

function apartIn({ moment, readings }: Read, holding: readonly Taken[], noise: number): Apart[] {
  const wide = (one: Taken) => withNoise(one, noise);
  const within = readings.filter((one) => scatters(wide(one))).map((one): Apart => ({ moment, one, other: one }));
  const between = readings.flatMap((now) =>
    holding
      .filter(
        (then) =>
          then !== now &&
          (then.order < now.order || then.path < now.path) &&
          isAtOnePlace(then, now) &&
          differ(wide(then), wide(now)),
      )
      .map((then): Apart => ({ moment, one: then, other: now })),
  );
  return [...within, ...between];
}

/** A tape on the bed has no place of its own. */
function isOfOnePlace(then: Taken, now: Taken): boolean {
  return then.order < now.order && isAtOnePlace(then, now);
}

function isAtOnePlace(one: Taken, other: Taken): boolean {
  return (
    one.station === other.station &&
    one.height === 0 &&
    other.height === 0 &&
    sameCarriages(one.carriages, other.carriages)
  );
}

/** Tapes on the bed below a station with the carriages in the same place, laid anew. */
function isBelowOnePlace(then: Taken, now: Taken): boolean {
  return (
    then.order < now.order &&
    then.station === now.station &&
    then.height > 0 &&
    now.height > 0 &&
    sameCarriages(then.carriages, now.carriages)
  );
}

/** Whether marks that were set aside have come again: a mark on its own tape in the same place, tapes on the bed with the same lean. */
function comeAgain(then: readonly Taken[], now: readonly Taken[]): boolean {
  if (then.some((one) => now.some((other) => isOfOnePlace(one, other) && !differ(one, other) && !scatters(other))))
    return true;
  const [before, after] = [then, now].map((some) =>
    grouped(
      some.filter(({ height }) => height > 0),
      tapeKey,
    ),
  );
  return before!.some((one) => after!.some((other) => isBelowOnePlace(one[0]!, other[0]!) && leanAlike(one, other)));
}
