/**
 * From what happened to what is believed, worked out when somebody asks: a long log is folded for little more than
 * reading it, and an edit goes on from the accounts that are already there.
 *
 * A *chapter* is a stretch of the log that begins with nothing known but what earlier chapters taught of the screws, and
 * what the marks said that still held: where nobody knows what moved, and after so many happenings that older ones
 * teach nothing new. Only the last few chapters are ever looked at.
 */
import { after, believed, type Belief } from './belief.ts';
import type { Move } from './move.ts';
import { isOdd, observe, type Surprise } from './observe.ts';
import { sameCarriages } from './places.ts';
import type { Moment, Taken } from './state.ts';
import type { System } from './system.ts';

export interface Chapter extends Closed {
  /** Latest last. */
  readonly earlier: readonly Closed[];
}

/** A chapter without those before it. */
interface Closed {
  readonly system: System;
  /** The readings that held when it began, whichever station's. */
  readonly held: readonly Taken[];
  readonly last?: Happening;
}

export type Happening = { readonly before?: Happening; readonly count: number } & ({ readonly move: Move } | Read);

/** A marks cell, and the readings of every station that hold with it. */
export interface Read {
  readonly moment: Moment;
  readonly station: string;
  readonly readings: readonly Taken[];
  holding(): readonly Taken[];
}

/** Marks that did not come where they were expected, by more than chance. */
export interface Odd extends Surprise {
  readonly moment: Moment;
  readonly station: string;
  readonly readings: readonly Taken[];
  /** What was believed until then. */
  readonly before: Belief;
}

export interface Account {
  readonly belief: Belief;
  /** Since last nobody knew what moved, latest last. */
  readonly odd: readonly Odd[];
}

/**
 * The last odd marks that stand against a reading: they are believed before what was read earlier, there and on what lies
 * behind. Nothing where the reading still holds.
 */
export function contradiction({ station, order }: Pick<Taken, 'station' | 'order'>, odd: readonly Odd[]): Odd | undefined {
  return odd.findLast(({ moment, readings }) => moment.order > order && readings[0]!.station <= station);
}

const EARLIER_KEPT = 3;

/** @param before the chapter that ends here; what it knew of the screws is carried over */
export function chapter(system: System, held: readonly Taken[], before?: Chapter): Chapter {
  if (!before) return { system, held, earlier: [] };
  const { earlier, ...closed } = before;
  return { system, held, earlier: closed.last ? [...earlier, closed].slice(-EARLIER_KEPT) : earlier };
}

export function moved(before: Chapter, move: Move): Chapter {
  return happened(before, { move });
}

/** So many happenings are a chapter: enough for any visit. */
const LONGEST = 100;

export function read(before: Chapter, what: Read): Chapter {
  const next = happened(before, what);
  return next.last!.count < LONGEST ? next : chapter(before.system, what.holding(), next);
}

function happened(before: Chapter, what: { readonly move: Move } | Read): Chapter {
  const { last } = before;
  return { ...before, last: { ...what, count: (last?.count ?? 0) + 1, ...(last && { before: last }) } };
}

const accounts = new WeakMap<object, Account>();

/** Kept for every happening that was asked about, so that the next one is a single step. */
export function account(of: Chapter): Account {
  const steps: Happening[] = [];
  let from = of.last;
  while (from && !accounts.has(from)) {
    steps.push(from);
    from = from.before;
  }
  const start = from ? accounts.get(from)! : opening(of, taught(of));
  const found = steps.reduceRight(step, start);
  if (of.last) accounts.set(of.last, found);
  return found;
}

const lessons = new WeakMap<readonly Closed[], Account>();

/**
 * What earlier chapters taught. Where nothing of them holds, and every screw's place is written down, they add little to what
 * its geometry says.
 */
function taught({ held, earlier }: Chapter): Account | undefined {
  const last = earlier.at(-1);
  if (!last || (held.length === 0 && last.system.screws.every(({ effect }) => effect))) return undefined;
  const known = lessons.get(earlier) ?? earlier.reduce<Account | undefined>((before, one) => whole(one, before), undefined)!;
  lessons.set(earlier, known);
  return known;
}

function whole(of: Closed, before: Account | undefined): Account {
  const steps: Happening[] = [];
  for (let one = of.last; one; one = one.before) steps.push(one);
  return steps.reduceRight(step, opening(of, before));
}

/** Where readings are held over, nothing happened in between that nobody knows, and what contradicted them still does. */
function opening({ system, held }: Closed, before: Account | undefined): Account {
  const odd = held.length > 0 ? before?.odd ?? [] : [];
  return { belief: observe(believed(system, before?.belief), uncontradicted(held, odd)).belief, odd };
}

function uncontradicted(readings: readonly Taken[], odd: readonly Odd[]): Taken[] {
  return readings.filter((reading) => !contradiction(reading, odd));
}

/** Below this probability of mere chance the log and the marks contradict each other. */
const CHANCE = 0.001;

/**
 * Where marks are not what the log makes one expect, something happened that it does not say: then they are believed, with
 * what else still holds, and of what came before only what the screws do.
 */
function step({ belief: before, odd }: Account, what: Happening): Account {
  if ('move' in what) return { belief: after(before, what.move), odd };
  const { belief, surprise } = observe(before, what.readings, CHANCE);
  if (!isOdd(surprise, CHANCE)) return { belief, odd };
  const { moment, station, readings } = what;
  const held = uncontradicted(what.holding(), odd);
  const all = isRepeat(readings, held) ? odd : [...odd, { moment, station, readings, before, ...surprise }];
  return { belief: observe(believed(before.system, before), uncontradicted(held, all)).belief, odd: all };
}

/** Standard uncertainties: chance goes so far once in a thousand times over both axes (normal, two-sided). */
export const SURE = 3.5;

/** The same tapes as before show the same marks: then it is the machine that the model does not fit, a bowed rail, and not the log. */
function isRepeat(readings: readonly Taken[], held: readonly Taken[]): boolean {
  const pairs = readings.flatMap((now) => held.filter((then) => isOfOnePlace(then, now)).map((then) => ({ now, then })));
  const differs = ({ now, then }: (typeof pairs)[number], axis: 'right' | 'up') => now[axis] !== undefined && then[axis] !== undefined && Math.abs(now[axis] - then[axis]) > SURE * Math.hypot(now.u, then.u);
  return pairs.length > 0 && !pairs.some((pair) => differs(pair, 'right') || differs(pair, 'up'));
}

/** A tape on the bed has no place of its own. */
function isOfOnePlace(then: Taken, now: Taken): boolean {
  return then.order < now.order && then.station === now.station && then.height === 0 && now.height === 0 && sameCarriages(then.carriages, now.carriages);
}
