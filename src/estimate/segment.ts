/**
 * A *segment* of the log begins with an unknown beam, except for the marks that are still valid. It lists its events
 * and grows at its end; the filter's state is computed from it on request (`filter.ts`).
 */
import type { Move, System } from '../machine/index.ts';
import type { FilterCache } from './filter-cache.ts';
import type { Moment, LoggedReading } from './logged-reading.ts';

export interface Segment {
  readonly system: System;
  /** Of the log. */
  readonly cache: FilterCache;
  /** The readings of all stations that were valid when it began. */
  readonly initialReadings: readonly LoggedReading[];
  /**
   * `disturbed` if its rails may be bent otherwise than in the segment before: after an event, a changed machine, a
   * cell with errors.
   */
  readonly rails: 'unchanged' | 'disturbed';
  readonly last?: SegmentEvent;
  /** The segment before; a segment without events is left out. */
  readonly earlier?: Segment;
}

export type SegmentEvent = { readonly before?: SegmentEvent; readonly count: number } & (
  | { readonly move: Move }
  | MarksEvent
);

/** A marks cell, and the readings of all stations that are valid with it. */
export interface MarksEvent {
  readonly moment: Moment;
  readonly station: string;
  readonly readings: readonly LoggedReading[];
  readonly validReadings: readonly LoggedReading[];
}

/**
 * Starts a segment.
 * @param before the segment that ends here, from which estimates are carried over
 */
export function segment(
  system: System,
  initialReadings: readonly LoggedReading[],
  cache: FilterCache,
  before?: Segment,
  rails: Segment['rails'] = 'unchanged',
): Segment {
  if (!before) return { system, initialReadings, cache, rails };
  if (before.last) return { system, initialReadings, cache, rails, earlier: before };
  return {
    system,
    initialReadings,
    cache,
    rails: before.rails === 'disturbed' ? 'disturbed' : rails,
    ...(before.earlier && { earlier: before.earlier }),
  };
}

export function withMove(before: Segment, move: Move): Segment {
  return withEvent(before, { move });
}

/** Maximum number of events of a segment: more than any visit has. */
const MAX_EVENTS = 100;

export function withMarks(before: Segment, event: MarksEvent): Segment {
  const next = withEvent(before, event);
  return next.last!.count < MAX_EVENTS ? next : segment(before.system, event.validReadings, before.cache, next);
}

function withEvent(before: Segment, event: { readonly move: Move } | MarksEvent): Segment {
  const { last } = before;
  return { ...before, last: { ...event, count: (last?.count ?? 0) + 1, ...(last && { before: last }) } };
}
