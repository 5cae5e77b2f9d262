/**
 * A *chapter* is a segment of the log that begins with nothing known of the beam but the marks that still hold. It keeps what
 * happened, as a list that grows at its end; what follows from it is computed on request (`account.ts`).
 */
import type { Move, System } from '../machine/index.ts';
import type { Moment, Taken } from './taken.ts';

export interface Chapter {
  readonly system: System;
  /** The readings that held when it began, whichever station's. */
  readonly held: readonly Taken[];
  /** Whether its rails may be bent otherwise than in the chapter before: after an event, a changed machine, a cell that cannot be read. */
  readonly rails: 'kept' | 'disturbed';
  readonly last?: Happening;
  /** What came before it; a chapter in which nothing happened is left out. */
  readonly earlier?: Chapter;
}

export type Happening = { readonly before?: Happening; readonly count: number } & ({ readonly move: Move } | Read);

/** A marks cell, and the readings of every station that hold with it. */
export interface Read {
  readonly moment: Moment;
  readonly station: string;
  readonly readings: readonly Taken[];
  readonly holding: readonly Taken[];
}

/** @param before the chapter that ends here; what it taught is carried over */
export function chapter(
  system: System,
  held: readonly Taken[],
  before?: Chapter,
  rails: Chapter['rails'] = 'kept',
): Chapter {
  if (!before) return { system, held, rails };
  if (before.last) return { system, held, rails, earlier: before };
  return {
    system,
    held,
    rails: before.rails === 'disturbed' ? 'disturbed' : rails,
    ...(before.earlier && { earlier: before.earlier }),
  };
}

export function moved(before: Chapter, move: Move): Chapter {
  return happened(before, { move });
}

/** A chapter of this many happenings is long enough for any visit. */
const LONGEST = 100;

export function read(before: Chapter, what: Read): Chapter {
  const next = happened(before, what);
  return next.last!.count < LONGEST ? next : chapter(before.system, what.holding, next);
}

function happened(before: Chapter, what: { readonly move: Move } | Read): Chapter {
  const { last } = before;
  return { ...before, last: { ...what, count: (last?.count ?? 0) + 1, ...(last && { before: last }) } };
}
