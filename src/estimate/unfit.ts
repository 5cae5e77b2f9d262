/**
 * Parts that must not be fired at: found cracked or loose, the lens also pitted or burnt. A part stays unfit until a
 * care cell, the same or a later one, logs that it was replaced, that what was loose was tightened, or that it was
 * found clean with a note that gives the reason. Nothing else clears it: neither a session nor an event.
 */
import type { CareEntry, Condition, Machine, UnreadEntry } from '../model/index.ts';
import { TUBE } from '../machine/index.ts';

/** One care cell that found a part unfit. */
export interface Unfit {
  readonly part: string;
  readonly found: Condition;
  /** Index of its entry. */
  readonly order: number;
  /** What cleared it; absent while the part is unfit. `gone`: the machine no longer has the part. */
  readonly cleared?: Cleared;
}

/** How a part was cleared. */
export type Cleared = 'replaced' | 'tightened' | 'found clean' | 'gone';

/** The parts that are unfit now, in the order of the log. */
export function unfitNow({ unfit }: { readonly unfit: readonly Unfit[] }): readonly Unfit[] {
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
  const cleared = all.map((record) =>
    record.part === entry.part ? ended(record, clears(entry, record.found)) : record,
  );
  const { part, found } = entry;
  const isLens = path.some(({ name, kind }) => name === part && kind === 'lens');
  const isUnfit =
    found !== undefined &&
    (UNFIT.has(found) || (isLens && UNFIT_LENS.has(found))) &&
    clears(entry, found) === undefined;
  return isUnfit ? [...cleared, { part, found, order }] : cleared;
}

const UNFIT: ReadonlySet<Condition> = new Set(['cracked', 'loose']);
const UNFIT_LENS: ReadonlySet<Condition> = new Set(['pitted', 'burnt']);

/** A care cell with errors counts with what it found, not with what was done. */
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

/** A part that the machine no longer has is not fired at. */
export function unfitOn(all: readonly Unfit[], { path }: Pick<Machine, 'path'>): readonly Unfit[] {
  const parts = new Set([TUBE, ...path.map(({ name }) => name)]);
  return all.map((record) => (parts.has(record.part) ? record : ended(record, 'gone')));
}

function ended(record: Unfit, cleared: Cleared | undefined): Unfit {
  return cleared === undefined || record.cleared !== undefined ? record : { ...record, cleared };
}

function clears(entry: Care, unfit: Condition): Cleared | undefined {
  if (entry.did === 'replaced') return 'replaced';
  if (entry.did === 'tightened' && unfit === 'loose') return 'tightened';
  return saysFit(entry) ? 'found clean' : undefined;
}

/** `found: clean` alone clears nothing: the note must give the reason. */
function saysFit({ found, did, note = '' }: Care): boolean {
  return found === 'clean' && did === 'inspected' && note.trim() !== '';
}
