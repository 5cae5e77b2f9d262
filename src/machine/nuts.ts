/**
 * The state of the lock nuts of each mirror by the log, all nuts of one mirror together. It is unknown at first. `lock:
 * tight` and `found tight` make them tight, `loose` and `found loose` loose. A turn while they are not loose leaves
 * them to be tightened, since somebody loosened them or turned against them. An event makes them unknown; a session
 * changes nothing. The order in one cell is: found, loosened, turned, tightened.
 */
import { mountOf, type AdjustEntry, type ChecksEntry, type Entry } from '../model/index.ts';
import { TUBE } from './move.ts';
import type { System } from './system.ts';

export type Nuts = 'tight' | 'loose' | 'to be tightened';

/** Nuts by the log up to an entry. */
export interface NutStates {
  /** By part; absent if unknown. */
  readonly states: ReadonlyMap<string, Nuts>;
  /** Parts with screws turned since the visit began. */
  readonly turned: ReadonlySet<string>;
  /** Whether a list of checks in this visit includes that the nuts were tried by hand. */
  readonly isChecked: boolean;
}

/** Before the first entry: nothing is known. */
export const NO_NUTS: NutStates = { states: new Map(), turned: new Set(), isChecked: false };

/** @param system the machine in force */
export function nutsAfter(before: NutStates, entry: Entry, system: System | undefined): NutStates {
  switch (entry.kind) {
    case 'adjust':
      return system && !hasNuts(system, entry.part) ? before : adjusted(before, entry);
    case 'session':
    case 'release':
      return { ...before, turned: new Set(), isChecked: false };
    case 'event':
      return { ...before, states: new Map(), isChecked: false };
    case 'checks':
      return mentionsNuts(entry) ? { ...before, isChecked: true } : before;
    case 'unread':
      return entry.of === 'adjust' || entry.of === 'event' || entry.of === undefined
        ? doubted(before, entry.part)
        : before;
    default:
      return before;
  }
}

/** A part without a mount may have nuts: the workbook does not state that it has none. */
export function hasNuts({ machine }: System, part: string): boolean {
  return mountOf(machine, part)?.locks !== 'none';
}

function adjusted(before: NutStates, entry: AdjustEntry): NutStates {
  const foundState = entry.foundLock ?? before.states.get(entry.part);
  const isTurned = turnsScrews(entry);
  const loosened = entry.lock === 'loose' ? 'loose' : foundState;
  const turned = isTurned && loosened !== 'loose' ? 'to be tightened' : loosened;
  const now = entry.lock === 'tight' ? 'tight' : turned;
  return {
    ...before,
    states: now === undefined ? before.states : new Map(before.states).set(entry.part, now),
    turned: isTurned ? new Set(before.turned).add(entry.part) : before.turned,
  };
}

function turnsScrews({ turns }: AdjustEntry): boolean {
  return Object.values(turns).some((amount) => amount !== 0);
}

/** A cell with errors may have loosened tight nuts. Nuts to be tightened stay so. */
function doubted(before: NutStates, part: string | undefined): NutStates {
  const retained = [...before.states].filter(
    ([name, nuts]) => nuts !== 'tight' || (part !== undefined && name !== part),
  );
  return { ...before, states: new Map(retained) };
}

function mentionsNuts({ done }: ChecksEntry): boolean {
  return done.some((item) => /\b(lock)?nuts?\b/i.test(item));
}

/**
 * Whether a cell turns screws while their nuts are tight by the log: the turn has little effect, or the nuts were
 * loosened unlogged.
 */
export function turnsWhileTight({ states }: NutStates, entry: AdjustEntry): boolean {
  return turnsScrews(entry) && entry.lock !== 'loose' && (entry.foundLock ?? states.get(entry.part)) === 'tight';
}

/** The part of a state of the log that concerns nuts. */
interface LogState {
  readonly nuts: NutStates;
  readonly system?: System;
}

/**
 * Whether nuts must be loosened before a turn of this part: always if they are tight, and before its first turn in a
 * visit unless they are loose.
 */
export function needsLoosening({ nuts: { states, turned }, system }: LogState, part: string): boolean {
  if (!system || !hasNuts(system, part)) return false;
  switch (states.get(part)) {
    case 'loose':
      return false;
    case 'to be tightened':
      return !turned.has(part);
    default:
      return true;
  }
}

/** Parts whose nuts are loose or have to be tightened, in the order of the path. */
export function untightened({ nuts: { states }, system }: LogState): string[] {
  if (!system) return [];
  const parts = [TUBE, ...system.machine.path.map(({ name }) => name)];
  return parts.filter((part) => states.has(part) && states.get(part) !== 'tight' && hasNuts(system, part));
}

/** Mirrors whose nuts are in an unknown state, unless a check of this visit tried them. */
export function unknownNuts({ nuts: { states, isChecked }, system }: LogState): string[] {
  if (!system || isChecked) return [];
  const mirrors = system.machine.path.filter(
    ({ kind, mount, name }) => kind === 'mirror' && mount !== undefined && hasNuts(system, name),
  );
  return mirrors.map(({ name }) => name).filter((name) => !states.has(name));
}
