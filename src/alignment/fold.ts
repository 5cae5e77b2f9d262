/**
 * One entry further: state × entry → state. Nothing is estimated here; what a cell says is only entered, so
 * that folding a long log costs little more than reading it.
 */
import { tubeEndShift, tubeShift } from '../optics/index.ts';
import type { AdjustEntry, CareEntry, Displacement, Entry, LogEntry, MachineEntry, MarksEntry, UnreadEntry } from '../model/index.ts';
import { TUBE, withNoise, withShift, withTubeMove, withTurn, type Moved } from './moved.ts';
import { reachOf } from './reach.ts';
import { BEFORE, lastMoved, prior, type Epoch, type Moment, type Round, type State } from './state.ts';
import { station, system, type System } from './system.ts';
import { take } from './take.ts';

/** Rounds of one station that are kept, and epochs: older ones teach nothing that newer ones do not. */
const ROUNDS_KEPT = 3;
const EPOCHS_KEPT = 3;

export function fold(entries: readonly LogEntry[], from: State = BEFORE): State {
  return entries.reduce(step, from);
}

export function step(before: State, { entry, cell }: LogEntry): State {
  const next = apply(before, entry, { order: before.order, cell });
  return { ...next, order: before.order + 1, ...(entry.date !== undefined && { date: entry.date }) };
}

function apply(state: State, entry: Entry, moment: Moment): State {
  switch (entry.kind) {
    case 'machine': return useMachine(state, entry, moment);
    case 'limits': return { ...state, limits: entry.limits };
    case 'session': return newEpoch(state, moment);
    case 'marks': return addMarks(state, entry, moment);
    case 'adjust': return adjust(state, entry, moment);
    case 'care': return care(state, entry, moment);
    case 'event': return newEpoch(state, moment);
    case 'release': return { ...state, released: entry.to };
    case 'unread': return unread(state, entry, moment);
    default: return state;
  }
}

/** A machine cell that says the same again changes nothing. */
function useMachine(state: State, { machine }: MachineEntry, moment: Moment): State {
  if (state.system && JSON.stringify(state.system.machine) === JSON.stringify(machine)) return state;
  const next = state.system ? newEpoch(state, moment) : state;
  return { ...next, system: system(machine) };
}

function newEpoch(state: State, moment: Moment): State {
  const { released: _, ...rest } = state;
  const closed: Epoch[] = state.system && state.rounds.size > 0 ? [{ system: state.system, rounds: state.rounds, moved: state.moved }] : [];
  return { ...rest, epoch: state.epoch + 1, began: moment, earlier: [...state.earlier, ...closed].slice(-EPOCHS_KEPT) };
}

function addMarks(state: State, entry: Omit<MarksEntry, 'incomplete'> & { readonly incomplete?: boolean }, moment: Moment): State {
  const at = state.system && station(state.system, entry.station);
  if (!at) return state;
  // A shot that cannot be read may say anything: older marks no longer speak for its place.
  if (entry.incomplete) return addMarks(placed(state, at.name, moment), { ...entry, incomplete: false }, moment);
  const readings = entry.shots.map((shot) => take(shot, at, state, moment));
  const since = lastMoved(state, at).order;
  const rounds = state.rounds.get(at.name) ?? [];
  const last = rounds.at(-1);
  const extended: Round[] = last && last.since === since && last.epoch === state.epoch
    ? [...rounds.slice(0, -1), { ...last, readings: [...last.readings, ...readings] }]
    : [...rounds, { epoch: state.epoch, since, readings }];
  return { ...state, rounds: new Map(state.rounds).set(at.name, extended.slice(-ROUNDS_KEPT)) };
}

function adjust(state: State, entry: AdjustEntry, moment: Moment): State {
  let next = state;
  for (const [screw, turns] of Object.entries(entry.turns)) {
    next = { ...steered(next, entry.part, moment), moved: withTurn(next.moved, entry.part, screw, turns) };
  }
  if (entry.shift) next = shift(next, entry.part, entry.shift, moment);
  return entry.lock === undefined ? next : lock(next, entry.part, entry.lock, moment);
}

function shift(state: State, part: string, { by, end }: NonNullable<AdjustEntry['shift']>, moment: Moment): State {
  const { system: of } = state;
  if (!of) return state;
  const moved = part === TUBE ? moveTube(of, state.moved, by, end) : withShift(state.moved, part, by);
  const noise = { tilt: prior(of.machine, 'shiftAngle') ** 2, place: prior(of.machine, 'shiftReading') ** 2 };
  return { ...steered(placed(state, part, moment), part, moment), moved: withNoise(moved, part, noise) };
}

/** One end needs to know where the holders are; without them the move is entered as one of unknown size. */
function moveTube(of: System, moved: Moved, by: Displacement, end: 'exit' | 'tail' | undefined): Moved {
  if (end === undefined) return withTubeMove(moved, { ...tubeShift(of.layout, by), turnRight: 0, turnUp: 0 });
  const { holders } = of.machine.source;
  const turned = holders && tubeEndShift(of.layout, holders, end, by);
  if (turned) return withTubeMove(moved, turned);
  return withNoise(moved, TUBE, { tilt: prior(of.machine, 'tubeAngle') ** 2, place: Math.hypot(...by) ** 2 });
}

/** Loosening moves a mirror as tightening does. */
function lock(state: State, part: string, to: 'loose' | 'tight', moment: Moment): State {
  const loose = new Set(state.loose);
  if (to === 'loose') loose.add(part);
  else loose.delete(part);
  const tilt = state.system ? prior(state.system.machine, 'lockTilt') ** 2 : 0;
  return { ...steered(state, part, moment), loose, locked: new Set(state.locked).add(part), moved: withNoise(state.moved, part, { tilt, place: 0 }) };
}

/** Cleaning in place leaves an optic where it is; taking it out does not. A lens that was out is shot again itself. */
function care(state: State, entry: CareEntry, moment: Moment): State {
  if (entry.did !== 'removed and cleaned' && entry.did !== 'replaced') return state;
  return disturbed(state, entry.part, moment);
}

/** A part that may stand anywhere now. */
function disturbed(state: State, part: string, moment: Moment): State {
  const { system: of } = state;
  if (!of) return state;
  const lens = station(of, part)?.element.kind === 'lens';
  const noise = part === TUBE
    ? { tilt: prior(of.machine, 'tubeAngle') ** 2, place: prior(of.machine, 'tubeOffset') ** 2 }
    : { tilt: prior(of.machine, 'mirrorTilt') ** 2, place: lens ? prior(of.machine, 'apertureOffset') ** 2 : 0 };
  const next = steered(lens ? placed(state, part, moment) : state, part, moment);
  return { ...next, moved: withNoise(state.moved, part, noise) };
}

/** What an unreadable cell may have moved counts as moved; limits that cannot be read are none. */
function unread(state: State, entry: UnreadEntry, moment: Moment): State {
  if (entry.of === 'limits') return withoutLimits(state);
  const reach = state.system ? reachOf(entry, state.system) : 'everything';
  if (reach === 'nothing') return state;
  if (reach === 'everything') return newEpoch(state, moment);
  return 'station' in reach ? placed(state, reach.station, moment) : disturbed(placed(state, reach.part, moment), reach.part, moment);
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
