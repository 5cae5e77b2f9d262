/**
 * One entry further: state × entry → state. Nothing is estimated here; what a cell says is only entered, so that
 * folding a long log costs little more than reading it.
 */
import type { AdjustEntry, CareEntry, Entry, LogEntry, MachineEntry, MarksEntry, PriorName, UnreadEntry } from '../model/index.ts';
import { chapter, moved, read } from './account.ts';
import { NO_MOVE, screwKey, TUBE, withDisturbance, withTurn, type Disturbance, type Move } from './move.ts';
import { turned, without, withTapes } from './plumbed.ts';
import { isRemoval, practised } from './practice.ts';
import { reachOf } from './reach.ts';
import { shifted } from './shifted.ts';
import { BEFORE, freshReadings, lastMoved, type Moment, type State, type Taken } from './state.ts';
import { prior, station, system } from './system.ts';
import { take } from './take.ts';
import { waiting } from './waiting.ts';

export function fold(entries: readonly LogEntry[], from: State = BEFORE): State {
  return entries.reduce(step, from);
}

export function step(before: State, { entry, cell }: LogEntry): State {
  const by = cause(entry);
  const next = apply(waited(before, entry.date), entry, { order: before.order, cell, ...(by && { by }) });
  const practice = practised(before.practice, entry, entry.date ?? before.date);
  return { ...next, practice, order: before.order + 1, ...(entry.date !== undefined && { date: entry.date }) };
}

function cause(entry: Entry): Moment['by'] {
  if (entry.kind === 'care') return 'removal';
  return entry.kind === 'adjust' && entry.lock === 'tight' ? 'lock' : undefined;
}

/** Days that pass let everything wander a little. */
function waited(state: State, date: string | undefined): State {
  if (!state.system || date === undefined || state.date === undefined || date === state.date) return state;
  const days = (Date.parse(date.slice(0, 10)) - Date.parse(state.date.slice(0, 10))) / DAY;
  return days > 0 ? make(state, waiting(state.system, days)) : state;
}

const DAY = 24 * 3600 * 1000;
const UNDISTURBED: Disturbance = { tilt: 0, place: 0, aperture: 0 };

function make(state: State, move: Move): State {
  return state.chapter ? { ...state, chapter: moved(state.chapter, move) } : state;
}

function apply(state: State, entry: Entry, moment: Moment): State {
  switch (entry.kind) {
    case 'machine': return useMachine(state, entry, moment);
    case 'limits': return { ...state, limits: entry.limits };
    case 'session': return { ...newEpoch(state, moment), session: moment.order };
    case 'marks': return addMarks(reopened(state), entry, moment);
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
  const made = system(machine);
  return { ...next, system: made, chapter: chapter(made, [], state.chapter) };
}

function newEpoch(state: State, moment: Moment): State {
  const { released: _, ...rest } = state;
  return { ...rest, epoch: state.epoch + 1, began: moment, plumbed: new Map(), ...(state.chapter && { chapter: chapter(state.chapter.system, [], state.chapter) }) };
}

/** A machine that was withdrawn and is shot again is worked on again, and wants to be signed off. */
function reopened(state: State): State {
  if (state.released !== 'withdrawn') return state;
  const { released: _, ...rest } = state;
  return rest;
}

function addMarks(state: State, entry: Omit<MarksEntry, 'incomplete'> & { readonly incomplete?: boolean }, moment: Moment): State {
  const at = state.system && station(state.system, entry.station);
  if (!at) return state;
  // A shot that cannot be read may say anything: older marks no longer speak for its place.
  if (entry.incomplete) return addMarks({ ...placed(state, at.name, moment), plumbed: without(state.plumbed, at.name) }, { ...entry, incomplete: false }, moment);
  const readings = entry.shots.map((shot) => take(shot, at, state, moment));
  const since = lastMoved(state, at).order;
  const last = state.rounds.get(at.name);
  const held = last && last.since === since && last.epoch === state.epoch ? last : undefined;
  const before = last?.session === state.session ? last.number : 0;
  const round = { epoch: state.epoch, since, session: state.session, number: held?.number ?? before + 1, readings: [...(held?.readings ?? []), ...readings] };
  // Whoever remembers what held remembers no more of the log than that.
  const { chapter: story, ...rest } = state;
  const next: State = { ...rest, rounds: new Map(state.rounds).set(at.name, round), plumbed: withTapes(state.plumbed, at.name, readings, round.readings) };
  if (!story) return next;
  return { ...next, chapter: read(story, { moment, station: at.name, readings, holding: () => holding(next) }) };
}

/** Of one station, two shots of its corners: more say little that is new. */
const MOST_READINGS = 8;

function holding(state: State): Taken[] {
  return state.system!.stations.flatMap((one) => freshReadings(state, one).slice(-MOST_READINGS));
}

function adjust(state: State, entry: AdjustEntry, moment: Moment): State {
  let next = state;
  for (const [screw, turns] of Object.entries(entry.turns)) {
    const key = screwKey(entry.part, screw);
    next = make(steered(next, entry.part, moment), withTurn(NO_MOVE, entry.part, screw, turns));
    next = { ...next, turned: new Map(next.turned).set(key, (next.turned.get(key) ?? 0) + Math.abs(turns)), plumbed: turned(next.plumbed, key, turns) };
  }
  if (entry.shift) next = shift(next, entry.part, entry.shift, moment);
  return entry.lock === undefined ? next : lock(next, entry.part, entry.lock, moment);
}

function shift(state: State, part: string, { by, end }: NonNullable<AdjustEntry['shift']>, moment: Moment): State {
  const { system: of } = state;
  if (!of) return state;
  // One end of the tube alone turns the beam: by how much is not as well known as what a screw does.
  const plumbed = end === undefined ? state.plumbed : new Map();
  return make({ ...steered(placed(state, part, moment), part, moment), plumbed }, shifted(of, part, by, end));
}

/** Loosening moves a mirror as tightening does. */
function lock(state: State, part: string, to: 'loose' | 'tight', moment: Moment): State {
  const loose = new Set(state.loose);
  if (to === 'loose') loose.add(part);
  else loose.delete(part);
  const tilt = state.system ? prior(state.system.machine, 'lockTilt') ** 2 : 0;
  const next = { ...steered(state, part, moment), plumbed: new Map(), loose, locked: new Set(state.locked).add(part) };
  return make(next, withDisturbance(NO_MOVE, part, { ...UNDISTURBED, tilt }));
}

/** Cleaning in place leaves an optic where it is; taking it out does not. A lens that was out is shot again itself. */
function care(state: State, entry: CareEntry, moment: Moment): State {
  if (!isRemoval(entry.did)) return state;
  return disturbed(state, entry.part, moment);
}

/** A part that may stand anywhere now. */
function disturbed(state: State, part: string, moment: Moment): State {
  const { system: of } = state;
  if (!of) return state;
  const lens = station(of, part)?.element.kind === 'lens';
  const variance = (name: PriorName) => prior(of.machine, name) ** 2;
  const by: Disturbance = part === TUBE
    ? { tilt: variance('tubeAngle'), place: variance('tubeOffset'), aperture: 0 }
    : { tilt: variance('mirrorTilt'), place: variance('mirrorPiston'), aperture: lens ? variance('apertureOffset') : 0 };
  const next = steered(lens ? placed(state, part, moment) : state, part, moment);
  return make({ ...next, plumbed: new Map() }, withDisturbance(NO_MOVE, part, by));
}

/** What an unreadable cell may have moved counts as moved; limits that cannot be read are none. */
function unread(state: State, entry: UnreadEntry, moment: Moment): State {
  if (entry.of === 'limits') return withoutLimits(state);
  const reach = state.system ? reachOf(entry, state.system) : 'everything';
  if (reach === 'nothing') return state;
  if (reach === 'everything') return newEpoch(state, moment);
  return 'station' in reach ? { ...placed(state, reach.station, moment), plumbed: without(state.plumbed, reach.station) } : disturbed(placed(state, reach.part, moment), reach.part, moment);
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
