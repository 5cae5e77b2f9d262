/**
 * A *chapter* is a segment of the log that begins with nothing known of the beam but the marks that still hold. It keeps what
 * happened, as a list that grows at its end; what follows from it is computed on request (`account.ts`).
 */
import type { Move, System } from '../machine/index.ts';
import type { Moment, LoggedReading } from './logged-reading.ts';

export interface Segment {
  readonly system: System;
  /** The readings that held when it began, whichever station's. */
  readonly initialReadings: readonly LoggedReading[];
  /** Whether its rails may be bent otherwise than in the chapter before: after an event, a changed machine, a cell that cannot be read. */
  readonly rails: 'kept' | 'disturbed';
  readonly last?: SegmentEvent;
  /** What came before it; a chapter in which nothing happened is left out. */
  readonly earlier?: Segment;
}

export type SegmentEvent = { readonly before?: SegmentEvent; readonly count: number } & (
  | { readonly move: Move }
  | MarksEvent
);

/** A marks cell, and the readings of every station that hold with it. */
export interface MarksEvent {
  readonly moment: Moment;
  readonly station: string;
  readonly readings: readonly LoggedReading[];
  readonly validReadings: readonly LoggedReading[];
}

/** @param before the chapter that ends here; what it taught is carried over */
export function segment(
  system: System,
  initialReadings: readonly LoggedReading[],
  before?: Segment,
  rails: Segment['rails'] = 'kept',
): Segment {
  if (!before) return { system, initialReadings: initialReadings, rails };
  if (before.last) return { system, initialReadings: initialReadings, rails, earlier: before };
  return {
    system,
    initialReadings: initialReadings,
    rails: before.rails === 'disturbed' ? 'disturbed' : rails,
    ...(before.earlier && { earlier: before.earlier }),
  };
}

export function withMove(before: Segment, move: Move): Segment {
  return withEvent(before, { move });
}

/** A chapter of this many happenings is long enough for any visit. */
const MAX_EVENTS = 100;

export function withMarks(before: Segment, what: MarksEvent): Segment {
  const next = withEvent(before, what);
  return next.last!.count < MAX_EVENTS ? next : segment(before.system, what.validReadings, next);
}

function withEvent(before: Segment, what: { readonly move: Move } | MarksEvent): Segment {
  const { last } = before;
  return { ...before, last: { ...what, count: (last?.count ?? 0) + 1, ...(last && { before: last }) } };
}
