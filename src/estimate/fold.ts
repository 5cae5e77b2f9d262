/**
 * One step of the fold: state × entry → state. The content of a cell is only recorded and nothing is estimated, so
 * folding a long log costs little more than reading it.
 */
import {
  daysBetween,
  isWork,
  nextMeasured,
  opensVisit,
  nextPhase,
  type AdjustEntry,
  type CareEntry,
  type Entry,
  type LogEntry,
  type MachineEntry,
  type MarksEntry,
  type PriorName,
  type ReleaseEntry,
  type UnreadEntry,
} from '../model/index.ts';
import { segment, withMove, withMarks } from './segment.ts';
import { driftRate } from './drift-rate.ts';
import { endsAfter } from './ends.ts';
import {
  withLocking,
  NO_MOVE,
  screwKey,
  TUBE,
  withDisturbance,
  withTurn,
  grouped,
  isTubeNewAfter,
  nutsAfter,
  added,
  shifted,
  prior,
  station,
  system,
  type Disturbance,
  type Move,
} from '../machine/index.ts';
import { turned, without, withTapes } from './plumbed.ts';
import { isMoved, practised } from './practice.ts';
import { unreadReachOn } from './reach.ts';
import { initialState, freshReadings, lastMoved, type State } from './state.ts';
import type { Moment, LoggedReading } from './logged-reading.ts';
import { readingOf } from './reading-of.ts';
import { unfitAfterCare, unfitAfterUnread, unfitOn } from './unfit.ts';
import { processNoise } from './process-noise.ts';
import { withInterval, marksLeft, allIntervals } from './drift-intervals.ts';
import type { Interval } from './intervals.ts';

/** Folds entries into a state, from the initial one or from `from`. */
export function fold(entries: readonly LogEntry[], from: State = initialState()): State {
  return entries.reduce(step, from);
}

/** The state after one more entry. */
export function step(before: State, { entry, cell }: LogEntry): State {
  const by = cause(entry);
  const { order, date } = before;
  const begun = opensVisit(entry, before.phase) ? begin(before, entry, { order, cell }) : before;
  const next = apply(withProcessNoise(begun, entry), entry, {
    order,
    cell,
    ...(by && { by }),
    mover: entry,
  });
  const practice = practised(before.practice, entry, entry.date ?? date);
  const nuts = nutsAfter(before.nuts, entry, next.system);
  const ends = endsAfter(before.ends, entry, { before: before.system, after: next.system });
  return {
    ...next,
    practice,
    nuts,
    ends,
    isTubeNew: isTubeNewAfter(before.isTubeNew, entry),
    phase: nextPhase(entry, before.phase),
    measured: nextMeasured(before.measured, entry, opensVisit(entry, before.phase)),
    ...(entry.hours && { counter: entry.hours.hours }),
    order: order + 1,
    ...(entry.date !== undefined && { date: entry.date, latest: later(before.latest, entry.date) }),
  };
}

/**
 * Begins a visit. The first work of a log ends no visit. Work without a session cell begins a visit just before its own
 * entry.
 */
function begin(state: State, entry: Entry, { order, cell }: Moment): State {
  const isNamed = entry.kind === 'session';
  if (state.phase === 'none' && !isNamed) return state;
  const session = isNamed ? order : order - 1;
  return {
    ...newEpoch(state, { order: session, cell, mover: isNamed ? 'new session' : 'new visit' }, 'unchanged'),
    session,
    leftMarks: marksLeft(state),
    currentIntervals: new Map(),
    pastIntervals: allIntervals(state),
  };
}

function later(one: string | undefined, other: string): string {
  return one !== undefined && daysBetween(one, other) <= 0 ? one : other;
}

function cause(entry: Entry): Moment['by'] {
  if (entry.kind === 'care') return 'removal';
  return entry.kind === 'adjust' && entry.lock === 'tight' ? 'lock' : undefined;
}

/**
 * Adds the process noise of the days since the last cell that measured or moved something. The drift rate comes from
 * the visits before.
 */
function withProcessNoise(state: State, entry: Entry): State {
  const day = entry.date ?? state.date;
  if (!isWork(entry) || day === undefined) return state;
  return { ...drifted(state, daysSince(state, day), state.pastIntervals), noiseDate: day };
}

/** The state on the latest date of the log. */
export function carriedOn(state: State): State {
  const days = state.latest === undefined ? 0 : daysSince(state, state.latest);
  return days > 0 ? { ...drifted(state, days, allIntervals(state)), carriedOn: { from: state, days } } : state;
}

function daysSince({ noiseDate: since }: State, day: string): number {
  return since === undefined ? 0 : daysBetween(since, day);
}

function drifted(state: State, days: number, intervals: readonly (readonly Interval[])[]): State {
  const { system } = state;
  return system && days > 0
    ? withMoveMade(
        state,
        processNoise(system, days, () => driftRate(system.machine, intervals).variance),
      )
    : state;
}

function withMoveMade(state: State, move: Move): State {
  return state.segment ? { ...state, segment: withMove(state.segment, move) } : state;
}

function apply(state: State, entry: Entry, moment: Moment): State {
  switch (entry.kind) {
    case 'machine':
      return useMachine(state, entry, moment);
    case 'limits':
      return { ...state, limits: entry.limits };
    case 'marks':
      return addMarks(state, entry, moment);
    case 'adjust':
      return adjust(state, entry, moment);
    case 'care':
      return care(state, entry, moment);
    case 'event':
      return newEpoch(state, moment);
    case 'release':
      return release(state, entry);
    case 'unread':
      return unread(
        state.system
          ? { ...state, unfit: unfitAfterUnread(state.unfit, entry, state.system.machine, moment.order) }
          : state,
        entry,
        moment,
      );
    // They move nothing. A session begins a visit, which was done before.
    case 'session':
    case 'power':
    case 'measure':
    case 'checks':
    case 'note':
    case 'work':
      return state;
  }
}

/** An unchanged machine cell changes nothing. */
function useMachine(state: State, { machine }: MachineEntry, moment: Moment): State {
  if (state.system && JSON.stringify(state.system.machine) === JSON.stringify(machine)) return state;
  const next = state.system ? newEpoch(state, moment) : state;
  const described = system(machine);
  return {
    ...next,
    system: described,
    segment: segment(described, [], state.cache, state.segment, 'disturbed'),
    unfit: unfitOn(state.unfit, machine),
  };
}

/**
 * Begins an epoch: nobody knows what moved.
 * @param rails `disturbed` if they may be bent otherwise than before
 */
function newEpoch(state: State, moment: Moment, rails: 'unchanged' | 'disturbed' = 'disturbed'): State {
  const { released: _, noiseDate: __, ...rest } = state;
  return {
    ...rest,
    epoch: state.epoch + 1,
    began: moment,
    plumbed: new Map(),
    ...(state.segment && { segment: segment(state.segment.system, [], state.cache, state.segment, rails) }),
  };
}

function release(state: State, { to, by = '' }: ReleaseEntry): State {
  const { signer: _, ...rest } = state;
  return { ...rest, released: to, ...(by.trim() !== '' && { signer: by.trim() }) };
}

function addMarks(
  state: State,
  entry: Omit<MarksEntry, 'incomplete'> & { readonly incomplete?: boolean },
  moment: Moment,
): State {
  const at = state.system && station(state.system, entry.station);
  if (!at) return state;
  // A shot with errors may have had any content, so older marks of its place are stale.
  if (entry.incomplete)
    return addMarks(
      { ...placed(state, at.name, moment), plumbed: without(state.plumbed, at.name) },
      { ...entry, incomplete: false },
      moment,
    );
  const readings = entry.shots.map((shot) => readingOf(shot, at, state, moment));
  const since = lastMoved(state, at).order;
  const last = state.rounds.get(at.name);
  const current = last && last.since === since && last.epoch === state.epoch ? last : undefined;
  const before = last?.session === state.session ? last.number : 0;
  const date = entry.date ?? state.date;
  const round = {
    epoch: state.epoch,
    since,
    session: state.session,
    number: current?.number ?? before + 1,
    readings: added(current?.readings, readings),
    ...(date !== undefined && { date }),
  };
  const next: State = {
    ...state,
    rounds: new Map(state.rounds).set(at.name, round),
    currentIntervals: withInterval(state, at, round),
    plumbed: withTapes(state.plumbed, at.name, readings, round.readings),
  };
  if (!state.segment) return next;
  return {
    ...next,
    segment: withMarks(state.segment, {
      moment,
      station: at.name,
      readings: limitedShots(readings),
      validReadings: validReadings(next),
    }),
  };
}

/**
 * Maximum shots of one place in one cell that enter the estimate. The standard uncertainty of the mean of 96 is a tenth
 * of that of one.
 */
const MOST_SHOTS = 96;

/** Keeps the last shots of each place. */
function limitedShots(readings: readonly LoggedReading[]): readonly LoggedReading[] {
  const places = grouped(readings, ({ carriages, height }) => JSON.stringify([carriages, height]));
  if (places.every(({ length }) => length <= MOST_SHOTS)) return readings;
  const last = new Set(places.flatMap((shots) => shots.slice(-MOST_SHOTS)));
  return readings.filter((reading) => last.has(reading));
}

/** Maximum readings of one station: two shots of each corner. More add little. */
const MOST_READINGS = 8;

function validReadings(state: State): LoggedReading[] {
  return state.system!.stations.flatMap((station) => freshReadings(state, station, MOST_READINGS));
}

function adjust(state: State, entry: AdjustEntry, moment: Moment): State {
  let next = entry.lock === 'loose' ? lock(state, entry.part, moment) : state;
  for (const [screw, turns] of Object.entries(entry.turns)) {
    const key = screwKey(entry.part, screw);
    next = withMoveMade(steered(next, entry.part, moment), withTurn(NO_MOVE, entry.part, screw, turns));
    next = {
      ...next,
      turned: new Map(next.turned).set(key, (next.turned.get(key) ?? 0) + Math.abs(turns)),
      plumbed: turned(next.plumbed, key, turns),
    };
  }
  if (entry.shift) next = shift(next, entry.part, entry.shift, moment);
  return entry.lock === 'tight' ? lock(next, entry.part, moment) : next;
}

function shift(state: State, part: string, { by, end }: NonNullable<AdjustEntry['shift']>, moment: Moment): State {
  const { system } = state;
  if (!system) return state;
  // A shift of one end of the tube turns the beam, by an amount that is less certain than the effect of a screw.
  const plumbed = end === undefined ? state.plumbed : new Map();
  return withMoveMade(
    { ...steered(placed(state, part, moment), part, moment), plumbed },
    shifted(system, part, by, end),
  );
}

/** Loosening tilts a mirror as tightening does. */
function lock(state: State, part: string, moment: Moment): State {
  const next = { ...steered(state, part, moment), plumbed: new Map() };
  return state.system ? withMoveMade(next, withLocking(NO_MOVE, state.system, part)) : next;
}

/** Cleaning in place does not move an optic. Taking it out or tightening it does. */
function care(state: State, entry: CareEntry, moment: Moment): State {
  const noted = state.system
    ? { ...state, unfit: unfitAfterCare(state.unfit, entry, state.system.machine, moment.order) }
    : state;
  if (!isMoved(entry.did)) return noted;
  // Tape at the lens is shot with the lens out: only the beam behind it changes.
  const isLens = state.system && station(state.system, entry.part)?.element.kind === 'lens';
  return isLens ? steered(noted, entry.part, moment) : disturbed(noted, entry.part, moment);
}

/** A part whose position is unknown now. */
function disturbed(state: State, part: string, moment: Moment): State {
  const { system } = state;
  if (!system) return state;
  const lens = station(system, part)?.element.kind === 'lens';
  const variance = (name: PriorName) => prior(system.machine, name) ** 2;
  const by: Disturbance =
    part === TUBE
      ? { tilt: variance('tubeAngle'), place: variance('tubeOffset'), aperture: 0 }
      : {
          tilt: variance('mirrorTilt'),
          place: variance('mirrorPiston'),
          aperture: lens ? variance('apertureOffset') : 0,
        };
  const next = steered(lens ? placed(state, part, moment) : state, part, moment);
  return withMoveMade({ ...next, plumbed: new Map() }, withDisturbance(NO_MOVE, part, by));
}

/** Whatever a cell with errors may have moved counts as moved. A limits cell with errors leaves no limits. */
function unread(state: State, entry: UnreadEntry, moment: Moment): State {
  if (entry.of === 'limits') return withoutLimits(state);
  const reach = state.system ? unreadReachOn(entry, state.system) : 'everything';
  if (reach === 'nothing') return state;
  if (reach === 'everything') return newEpoch(state, moment);
  return 'station' in reach
    ? { ...placed(state, reach.station, moment), plumbed: without(state.plumbed, reach.station) }
    : disturbed(placed(state, reach.part, moment), reach.part, moment);
}

function withoutLimits(state: State): State {
  const { limits: _, ...rest } = state;
  return rest;
}

function steered(state: State, part: string, moment: Moment): State {
  const { released: _, ...rest } = state;
  return { ...rest, steered: new Map(state.steered).set(part, moment) };
}

function placed(state: State, part: string, moment: Moment): State {
  return { ...state, placed: new Map(state.placed).set(part, moment) };
}
