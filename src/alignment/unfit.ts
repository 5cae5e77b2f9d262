/**
 * Parts that must not be fired at: found cracked or loose, the lens also pitted or burnt. A part stays unfit until a care
 * cell, the same or a later one, says that it was replaced, that what was loose was tightened, or that it was found clean
 * with a note that says why. Nothing else clears it: neither a session nor an event.
 */
import type { CareEntry, Did, Found, Machine, Step, UnreadEntry } from '../model/index.ts';
import { TUBE } from './move.ts';
import type { Next } from './next.ts';
import type { State } from './state.ts';
import { nameInCell } from './words.ts';

/** One care cell that found a part unfit. */
export interface Unfit {
  readonly part: string;
  readonly found: Found;
  /** Index of its entry. */
  readonly order: number;
  /** What ended it; absent while the part is unfit. `gone`: the machine has no such part any more. */
  readonly cleared?: Cleared;
}

export type Cleared = 'replaced' | 'tightened' | 'found clean' | 'gone';

/** Those that are unfit now, in the order of the log. */
export function unfitNow({ unfit }: Pick<State, 'unfit'>): readonly Unfit[] {
  return unfit.filter(({ cleared }) => cleared === undefined);
}

type Care = Pick<CareEntry, 'part' | 'found' | 'did' | 'note'>;

/** @param order index of the entry */
export function unfitAfterCare(
  all: readonly Unfit[],
  entry: Care,
  { path }: Pick<Machine, 'path'>,
  order: number,
): readonly Unfit[] {
  const cleared = all.map((one) => (one.part === entry.part ? ended(one, clears(entry, one.found)) : one));
  const { part, found } = entry;
  const isLens = path.some(({ name, kind }) => name === part && kind === 'lens');
  const isUnfit =
    found !== undefined &&
    (UNFIT.has(found) || (isLens && UNFIT_LENS.has(found))) &&
    clears(entry, found) === undefined;
  return isUnfit ? [...cleared, { part, found, order }] : cleared;
}

const UNFIT: ReadonlySet<Found> = new Set(['cracked', 'loose']);
const UNFIT_LENS: ReadonlySet<Found> = new Set(['pitted', 'burnt']);

/** Of a cell that cannot be read whole only what it found counts, not what was done. */
export function unfitAfterUnread(
  all: readonly Unfit[],
  { part, found }: UnreadEntry,
  machine: Pick<Machine, 'path'>,
  order: number,
): readonly Unfit[] {
  const isPart = part === TUBE || machine.path.some(({ name }) => name === part);
  return part !== undefined && found !== undefined && isPart
    ? unfitAfterCare(all, { part, found }, machine, order)
    : all;
}

/** A part that the machine does not have any more is not fired at. */
export function unfitOn(all: readonly Unfit[], { path }: Pick<Machine, 'path'>): readonly Unfit[] {
  const parts = new Set([TUBE, ...path.map(({ name }) => name)]);
  return all.map((one) => (parts.has(one.part) ? one : ended(one, 'gone')));
}

function ended(one: Unfit, cleared: Cleared | undefined): Unfit {
  return cleared === undefined || one.cleared !== undefined ? one : { ...one, cleared };
}

function clears(entry: Care, unfit: Found): Cleared | undefined {
  if (entry.did === 'replaced') return 'replaced';
  if (entry.did === 'tightened' && unfit === 'loose') return 'tightened';
  return saysFit(entry) ? 'found clean' : undefined;
}

/** A word alone takes nothing back: the note says why. */
function saysFit({ found, did, note = '' }: Care): boolean {
  return found === 'clean' && did === 'inspected' && note.trim() !== '';
}

/** What a part needs that was found so. */
export function cureOf(found: Found): Extract<Did, 'tightened' | 'replaced'> {
  return found === 'loose' ? 'tightened' : 'replaced';
}

/** The care cells that clear what is unfit, one a part. */
export function curesOf(
  state: Pick<State, 'unfit'>,
): readonly { readonly part: string; readonly found: Found; readonly cell: string }[] {
  const unfit = unfitNow(state);
  return [...new Set(unfit.map(({ part }) => part))].map((part) => {
    const own = unfit.filter((one) => one.part === part).map(({ found }) => found);
    const found = own.find((one) => cureOf(one) === 'replaced') ?? own[0]!;
    return { part, found, cell: `care: ${nameInCell(part)}\ndid: ${cureOf(found)}\n` };
  });
}

/** While a part is unfit nothing is shot, moved or released: care alone. Nothing where every part is fit. */
export function stopForUnfit(state: State): Next | undefined {
  const steps = curesOf(state).map(({ part, found, cell }, k) => careStep(state, part, found, cell, k === 0));
  return steps.length === 0 ? undefined : { verdict: 'blocked', steps, expected: [] };
}

const WHY =
  'Nothing is shot, turned or released while a part is unfit: a cracked optic breaks under the beam, a damaged lens burns, and what is loose puts every mark somewhere else. If the part is sound after all, log `found: clean`, `did: inspected` and a `note` that says why.';

function careStep({ system }: State, part: string, found: Found, cell: string, isFirst: boolean): Step {
  const name = part === TUBE ? 'the tube' : part;
  const say =
    cureOf(found) === 'tightened'
      ? `Tighten what holds ${name}, no more than snug, or replace it: it was found loose.`
      : `Replace ${name}: it was found ${found}.`;
  const isLens = system?.machine.path.some((element) => element.name === part && element.kind === 'lens') === true;
  return {
    kind: 'care',
    part,
    did: cureOf(found),
    say,
    cell,
    ...(isFirst && { why: WHY }),
    ...(isLens && { handlesLens: true }),
  };
}
