/**
 * Runs the filter over the events of a segment, on request: folding a long log costs little more than reading it, and
 * after an edit the filter resumes from cached states.
 *
 * A *segment* of the log begins with an unknown beam, except for the marks that are still valid, and with what earlier
 * segments have shown of screws and rails.
 *
 * A mark that fails its gate is set aside as *unexplained* until its place is shot again. If the repeat agrees with the
 * prediction, the first mark was misread. If it agrees with the first mark, an event is missing in the log: older marks
 * at that station and after it are stale. If it agrees with neither, a part is loose or the reading is worse than
 * declared (`scatter.ts`). A mount that responds otherwise than the machine cell states is a hypothesis of its own
 * (`machine/mount-doubt.ts`).
 */
import { priorDistribution } from './distribution.ts';
import type { Segment, SegmentEvent } from './segment.ts';
import { finished, once, type Alternative, type System } from '../machine/index.ts';
import { update } from './update.ts';
import { isSame, scaled, filterStep, uncontradicted } from './filter-step.ts';
import { reconsider } from './reconsider.ts';
import { noEvidence } from './scatter.ts';
import type { FilterState, Assumption } from './filter-state.ts';

/**
 * Runs the filter segment by segment; each starts from what the segment before it carries over. Work before a cached
 * state is not repeated.
 */
export function runFilter(segment: Segment): FilterState {
  return finished(filterSteps(segment));
}

/** The same with a pause after each event. */
export function* filterSteps(segment: Segment): Generator<undefined, FilterState, undefined> {
  const open: Segment[] = [];
  for (let current: Segment | undefined = segment; current; current = current.earlier) {
    open.push(current);
    if (lastCached(current)) break;
  }
  let before: FilterState | undefined;
  for (const current of open.reverse()) before = yield* segmentSteps(current, before);
  return before!;
}

/** @param before the state at the end of the segment before; computed if it is not given and needed */
function* segmentSteps(
  segment: Segment,
  before: FilterState | undefined,
): Generator<undefined, FilterState, undefined> {
  const carriedOver = once(() => before ?? (segment.earlier && runFilter(segment.earlier)));
  const from = lastCached(segment);
  let state = from
    ? segment.cache.stateAfter(from)!
    : segment.cache.initialState(segment.initialReadings, () => openSegment(segment, carriedOver()));
  for (const event of eventsUpTo(segment.last, from)) {
    const rerun = (assumed: Assumption) => assuming(segment, assumed, event, carriedOver());
    state =
      'move' in event
        ? filterStep(state, event)
        : reconsider(state, filterStep(state, event), { event, system: segment.system, rerun });
    segment.cache.keep(event, state, event === segment.last);
    yield;
  }
  return state;
}

/** The filter's state in a segment, up to an event of it, under other assumptions. */
export function assuming(
  segment: Segment,
  assumed: Assumption,
  last = segment.last,
  carriedOver = segment.earlier && runFilter(segment.earlier),
): FilterState {
  return eventsUpTo(last).reduce(filterStep, openSegment(segment, carriedOver, assumed));
}

function lastCached({ last, cache }: Segment): SegmentEvent | undefined {
  let current = last;
  while (current && !cache.stateAfter(current)) current = current.before;
  return current;
}

/** Oldest first, up to `last`; those after `from` only. */
function eventsUpTo(last: SegmentEvent | undefined, from?: SegmentEvent): SegmentEvent[] {
  const all: SegmentEvent[] = [];
  for (let current = last; current && current !== from; current = current.before) all.push(current);
  return all.reverse();
}

/** If readings are carried over, nothing unknown happened in between, so earlier contradictions of them still count. */
function openSegment(
  { system, initialReadings, rails }: Segment,
  before: FilterState | undefined,
  assumed?: Assumption,
): FilterState {
  const { noise, mount } = assumed ?? {
    noise: 1,
    ...(before?.mount && describesMounts(before.mount, system) && { mount: before.mount }),
  };
  const contradictions = initialReadings.length > 0 ? (before?.contradictions ?? []) : [];
  const misread = initialReadings.length > 0 ? (before?.misread ?? []) : [];
  const unexplained = initialReadings.length > 0 ? (before?.unexplained ?? []) : [];
  const rejected = [...misread, ...unexplained.flatMap(({ readings }) => readings)];
  const assumedSystem = mount?.system ?? system;
  const carriedRails = rails === 'unchanged' ? before?.distribution : undefined;
  return {
    noise,
    ...(mount && { mount }),
    distribution: update(
      priorDistribution(assumedSystem, { screws: before?.distribution, rails: carriedRails }),
      scaled(
        uncontradicted(initialReadings, contradictions).filter(
          (reading) => !rejected.some((one) => isSame(one, reading)),
        ),
        noise,
      ),
    ),
    rails: carriedRails,
    contradictions,
    misread,
    unexplained,
    evidence: initialReadings.length > 0 && before ? before.evidence : noEvidence(assumedSystem),
    discrepancies: initialReadings.length > 0 ? (before?.discrepancies ?? []) : [],
    responses: mount && before ? before.responses : 0,
    responded: before && hasSameMounts(before.distribution.system, system) ? before.responded : new Map(),
    turns: undefined,
    lastRead: new Map(),
    lastAt: new Map(),
    logDensity: 0,
    slips: 0,
    tried: 0,
  };
}

function describesMounts({ written }: Alternative, system: System): boolean {
  return hasSameMounts({ machine: written }, system);
}

function hasSameMounts(
  { machine: one }: Pick<System, 'machine'>,
  { machine: other }: Pick<System, 'machine'>,
): boolean {
  return one === other || JSON.stringify(one.mounts) === JSON.stringify(other.mounts);
}
