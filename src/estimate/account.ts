/**
 * From what happened to the estimate, computed on request: a long log is folded for little more than reading it, and an edit
 * resumes from the accounts that are already there.
 *
 * A *chapter* is a segment of the log that begins with nothing known of the beam but the marks that still hold, and with
 * what earlier chapters taught of screws and rails.
 *
 * A mark that fails its gate is set aside as *unexplained* until its place is shot again. If the repeat agrees with the
 * prediction, the first one was misread. If it agrees with the first one, something happened that the log does not say:
 * older marks there and behind no longer hold. If it agrees with neither, something is loose or the reading is bad
 * (`scatter.ts`). A mount that turns otherwise than the machine cell says is a hypothesis of its own (`mount-doubt.ts`).
 */
import { priorOf } from './belief.ts';
import type { Chapter, Happening } from './chapter.ts';
import { once, type Alternative, type System } from '../machine/index.ts';
import { observe } from './observe.ts';
import { isSame, scaled, step, uncontradicted } from './readings-in.ts';
import { reconsidered } from './reconsidered.ts';
import { noEvidence } from './scatter.ts';
import type { Account, Assumption } from './account-types.ts';

/**
 * Caches. Accounts by their last happening: those requested last, and every eighth one, from which the others are recomputed in
 * at most seven steps. Accounts of chapters without a happening, by the readings that they begin with. An estimate takes up to
 * twenty kilobytes, of a hundred mirrors ten megabytes.
 */
const lately = new Map<Happening, Account>();
const landmarks = new Map<Happening, Account>();
const opened = new Map<Chapter['held'], Account>();
const LANDMARK = 8;
/** Of each of them. */
const MOST_KEPT = 200;
const MOST_BYTES = 32e6;

function keptOf(what: Happening): Account | undefined {
  return lately.get(what) ?? landmarks.get(what);
}

function keep<Key>(kept: Map<Key, Account>, what: Key, known: Account): void {
  const most = Math.min(MOST_KEPT, Math.max(2, MOST_BYTES / known.belief.covariance.length ** 2 / 8));
  kept.set(what, known);
  while (kept.size > most) kept.delete(kept.keys().next().value!);
}

/** Chapter by chapter, each from what the one before it taught; what stands before an account that is kept is not gone through again. */
export function account(of: Chapter): Account {
  const open: Chapter[] = [];
  for (let one: Chapter | undefined = of; one; one = one.earlier) {
    open.push(one);
    if (lastKept(one.last)) break;
  }
  let before: Account | undefined;
  for (const one of open.reverse()) before = accountOf(one, before);
  return before!;
}

/** @param before what the chapter before it taught; made where it is not at hand and needed */
function accountOf(of: Chapter, before: Account | undefined): Account {
  const taught = once(() => before ?? (of.earlier && account(of.earlier)));
  const from = lastKept(of.last);
  const start = from ? keptOf(from)! : begun(of, taught());
  return happenings(of.last, from).reduce((sofar, what) => {
    const again = (assumed: Assumption) => assuming(of, assumed, what, taught());
    const next =
      'move' in what ? step(sofar, what) : reconsidered(sofar, step(sofar, what), { what, system: of.system, again });
    if (what.count % LANDMARK === 0) keep(landmarks, what, next);
    if (what === of.last) keep(lately, what, next);
    return next;
  }, start);
}

/** The account of a chapter, up to a happening of it, under another assumption. */
export function assuming(
  of: Chapter,
  assumed: Assumption,
  last = of.last,
  taught = of.earlier && account(of.earlier),
): Account {
  return happenings(last).reduce(step, opening(of, taught, assumed));
}

function lastKept(last: Happening | undefined): Happening | undefined {
  let one = last;
  while (one && !keptOf(one)) one = one.before;
  return one;
}

/** Oldest first, up to `last`; those after `from` only. */
function happenings(last: Happening | undefined, from?: Happening): Happening[] {
  const all: Happening[] = [];
  for (let one = last; one && one !== from; one = one.before) all.push(one);
  return all.reverse();
}

/** Cached: an update with all held readings costs as much as many cells. */
function begun(of: Chapter, before: Account | undefined): Account {
  const known = opened.get(of.held) ?? opening(of, before);
  keep(opened, of.held, known);
  return known;
}

/** Where readings are held over, nothing unknown happened in between, and what contradicted them still does. */
function opening({ system, held, rails }: Chapter, before: Account | undefined, assumed?: Assumption): Account {
  const { noise, mount } = assumed ?? {
    noise: 1,
    ...(before?.mount && isOf(before.mount, system) && { mount: before.mount }),
  };
  const odd = held.length > 0 ? (before?.odd ?? []) : [];
  const misread = held.length > 0 ? (before?.misread ?? []) : [];
  const unexplained = held.length > 0 ? (before?.unexplained ?? []) : [];
  const set = [...misread, ...unexplained.flatMap(({ readings }) => readings)];
  const of = mount?.system ?? system;
  const known = rails === 'kept' ? before?.belief : undefined;
  return {
    noise,
    ...(mount && { mount }),
    belief: observe(
      priorOf(of, { screws: before?.belief, rails: known }),
      scaled(
        uncontradicted(held, odd).filter((reading) => !set.some((one) => isSame(one, reading))),
        noise,
      ),
    ),
    rails: known,
    odd,
    misread,
    unexplained,
    evidence: held.length > 0 && before ? before.evidence : noEvidence(of),
    apart: held.length > 0 ? (before?.apart ?? []) : [],
    responses: mount && before ? before.responses : 0,
    responded: before && hasSameMounts(before.belief.system, system) ? before.responded : new Map(),
    turns: undefined,
    seen: new Map(),
    lastAt: new Map(),
    logDensity: 0,
    slips: 0,
    tried: 0,
  };
}

function isOf({ written }: Alternative, system: System): boolean {
  return hasSameMounts({ machine: written }, system);
}

function hasSameMounts(
  { machine: one }: Pick<System, 'machine'>,
  { machine: other }: Pick<System, 'machine'>,
): boolean {
  return one === other || JSON.stringify(one.mounts) === JSON.stringify(other.mounts);
}
