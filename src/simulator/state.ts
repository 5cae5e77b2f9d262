/**
 * The hidden machine after the cells of a log: each cell that moves something moves it, with the errors of a hand.
 * Which error a hand makes depends on the seed and on how often this screw was turned before, so that the same cells
 * always lead to the same machine.
 */
import { lookup, type AdjustEntry, type CareEntry, type Entry } from '../model/index.ts';
import { addPose, scalePose, tubeEndShift, tubeShift, type Pose, type Tube, type Vector } from '../optics/index.ts';
import type { Purpose } from './draw.ts';
import { COLLEAGUE, colleaguesTurn } from './fault.ts';
import { largeTilt, screwKey, type Hidden } from './hidden.ts';

/** The machine at one moment. mm, slopes, turns. */
export interface HiddenState {
  readonly tube: Tube;
  readonly poses: readonly Pose[];
  readonly shifts: readonly Vector[];
  /** Indices of the mirrors whose lock nuts are loose. */
  readonly loosened: ReadonlySet<number>;
  /** By screw: where it stands in its play, 0 … its play. */
  readonly inPlay: ReadonlyMap<string, number>;
  /** How often a thing was done, by the words for it. */
  readonly done: ReadonlyMap<string, number>;
  /** Whether a loose mirror was tightened. */
  readonly isTightened: boolean;
}

/** Standard deviations of hand work: turns; mm and slope of a shift; slope of a lock; of an optic that was taken out. */
const TURN = 0.01;
const SHIFT = 0.25;
const SHIFT_ANGLE = 0.0005;
const LOCK = 0.0004;
const REMOVED = 0.002;
/** Of everything, when the machine is moved or knocked. */
const KNOCKED = { tilt: 0.004, tube: 0.5 } as const;
/** A new tube: mm and slope. */
const NEW_TUBE = { off: 1.5, angle: 0.0015 } as const;

function atStart({ layout, tube, poses }: Hidden): HiddenState {
  return {
    tube,
    poses,
    shifts: layout.elements.map(() => [0, 0, 0] as const),
    loosened: new Set(),
    inPlay: new Map(),
    done: new Map(),
    isTightened: false,
  };
}

/** The machine after the entries, in their order. */
export function stateAfter(hidden: Hidden, entries: readonly { readonly entry: Entry }[]): HiddenState {
  return entries.reduce((state, { entry }) => after(hidden, state, entry), atStart(hidden));
}

function after(hidden: Hidden, state: HiddenState, entry: Entry): HiddenState {
  switch (entry.kind) {
    case 'adjust':
      return adjusted(hidden, state, entry);
    case 'care':
      return caredFor(hidden, state, entry);
    case 'event':
      return /\bnew\s+(?:laser\s+)?tube\b/i.test(entry.what) ? withNewTube(hidden, state) : knocked(hidden, state);
    default:
      return state;
  }
}

/** In the order of the format: how the nuts were found, loosened, turned and shifted, tightened. */
function adjusted(hidden: Hidden, before: HiddenState, entry: AdjustEntry): HiddenState {
  const { part, turns, shift, lock, foundLock } = entry;
  const index = hidden.machine.path.findIndex(({ name }) => name === part);
  let state = before;
  if (foundLock !== undefined) state = { ...state, loosened: withNuts(state.loosened, index, foundLock) };
  if (lock === 'loose') state = locked(hidden, state, index, 'loose');
  for (const [screw, amount] of Object.entries(reallyTurned(hidden, entry, index) ?? turns))
    state = turned(hidden, state, index, screw, amount);
  if (shift) state = shifted(hidden, state, index, shift);
  if (lock === 'tight') state = locked(hidden, state, index, 'tight');
  return state;
}

function hasNuts({ machine }: Hidden, index: number): boolean {
  const mount = machine.path[index]?.mount;
  return mount !== undefined && lookup(machine.mounts, mount)?.locks === 'nut';
}

function withNuts(loosened: ReadonlySet<number>, index: number, to: 'loose' | 'tight'): ReadonlySet<number> {
  const after = new Set(loosened);
  if (to === 'loose') after.add(index);
  else after.delete(index);
  return after;
}

/** A lock nut moves the mirror a little; one that is in that state already does nothing. */
function locked(hidden: Hidden, state: HiddenState, index: number, to: 'loose' | 'tight'): HiddenState {
  if (!hasNuts(hidden, index) || state.loosened.has(index) === (to === 'loose')) return state;
  const [counted, count] = counting(state, `lock ${index}`);
  return tilted(hidden, { ...counted, loosened: withNuts(state.loosened, index, to) }, index, LOCK, [
    'lock',
    index,
    count,
  ]);
}

/** What a colleague turned stays as it was, however their cell is corrected. */
function reallyTurned(
  { machine, fault, draw }: Hidden,
  { by, turns }: AdjustEntry,
  index: number,
): Readonly<Record<string, number>> | undefined {
  if (fault === undefined || by !== COLLEAGUE || Object.keys(turns).length === 0) return undefined;
  const mount = machine.path[index]?.mount;
  const described = mount === undefined ? undefined : lookup(machine.mounts, mount);
  const made = colleaguesTurn(draw);
  const screw = Object.keys(described?.screws ?? {})[made.screw];
  return screw === undefined ? undefined : { [screw]: made.turns };
}

/** A tight nut holds its screw. */
function turned(hidden: Hidden, state: HiddenState, index: number, screw: string, amount: number): HiddenState {
  const key = screwKey(index, screw);
  const real = hidden.screws.get(key);
  if (!real || amount === 0) return state;
  const [counted, count] = counting(state, `turn ${index} ${real.index}`);
  if (hasNuts(hidden, index) && !state.loosened.has(index)) return counted;
  const made = amount + TURN * hidden.draw.normal('hand', index, real.index, count);
  const from = state.inPlay.get(key) ?? (made > 0 ? real.play : 0);
  const to = Math.min(real.play, Math.max(0, from + made));
  return {
    ...moved(counted, index, scalePose(real.effect, made - (to - from))),
    inPlay: new Map(state.inPlay).set(key, to),
  };
}

function shifted(
  hidden: Hidden,
  state: HiddenState,
  index: number,
  { by, end }: NonNullable<AdjustEntry['shift']>,
): HiddenState {
  const [counted, count] = counting(state, `shift ${index}`);
  const error = (width: number, of: string) => width * hidden.draw.normal('shift', index, count, of);
  if (index >= 0) {
    const slid: Vector = [by[0] + error(SHIFT, 'x'), by[1] + error(SHIFT, 'y'), by[2] + error(SHIFT, 'z')];
    const shifts = state.shifts.map(
      (one, k): Vector => (k === index ? [one[0] + slid[0], one[1] + slid[1], one[2] + slid[2]] : one),
    );
    return tilted(hidden, { ...counted, shifts }, index, SHIFT_ANGLE, ['shift', index, count]);
  }
  const { layout, machine } = hidden;
  const { holders } = machine.source;
  const whole = { ...tubeShift(layout, by), turnRight: 0, turnUp: 0 };
  const meant = (end !== undefined && holders && tubeEndShift(layout, holders, end, by)) || whole;
  const made = {
    right: meant.right + error(SHIFT, 'right'),
    up: meant.up + error(SHIFT, 'up'),
    turnRight: meant.turnRight + error(SHIFT_ANGLE, 'turns right'),
    turnUp: meant.turnUp + error(SHIFT_ANGLE, 'turns up'),
  };
  return { ...counted, tube: addTube(state.tube, made) };
}

/** What is taken out comes back elsewhere; a lens has no effect on the beam that reaches it. */
function caredFor(hidden: Hidden, state: HiddenState, { part, did }: CareEntry): HiddenState {
  if (did !== 'removed and cleaned' && did !== 'replaced' && did !== 'tightened') return state;
  const index = hidden.machine.path.findIndex(({ name }) => name === part);
  if (hidden.machine.path[index]?.kind !== 'mirror') return part === 'tube' ? withNewTube(hidden, state) : state;
  const [counted, count] = counting(state, `care ${index}`);
  const isTightened = state.isTightened || (index === 0 && did !== 'removed and cleaned');
  return tilted(hidden, { ...counted, isTightened }, index, REMOVED, ['care', index, count]);
}

function withNewTube(hidden: Hidden, state: HiddenState): HiddenState {
  const [counted, count] = counting(state, 'new tube');
  const off = (width: number, of: string) => width * hidden.draw.normal('new tube', count, of);
  const { off: place, angle } = NEW_TUBE;
  const tube = {
    right: off(place, 'right'),
    up: off(place, 'up'),
    turnRight: off(angle, 'turns right'),
    turnUp: off(angle, 'turns up'),
  };
  return { ...counted, tube };
}

/** A machine of the first level is never in order after a knock, so that there is something to do. */
function knocked(hidden: Hidden, state: HiddenState): HiddenState {
  const { draw, machine } = hidden;
  const [counted, count] = counting(state, 'knock');
  if (machine.practice?.level === 1) {
    const slope = (axis: string) => largeTilt(draw, axis, 'knock', count);
    const poses = state.poses.map((pose) => ({ ...pose, right: slope('right'), up: slope('up') }));
    return { ...counted, poses };
  }
  const off = (of: string) => KNOCKED.tube * draw.normal('knock', count, of);
  const tube = addTube(state.tube, { right: off('right'), up: off('up'), turnRight: 0, turnUp: 0 });
  return state.poses.reduce<HiddenState>(
    (one, _, index) => tilted(hidden, one, index, KNOCKED.tilt, ['knock', index, count]),
    { ...counted, tube },
  );
}

/** @param by standard deviation of either slope */
function tilted({ draw }: Hidden, state: HiddenState, index: number, by: number, purpose: Purpose): HiddenState {
  const slope = (axis: string) => by * draw.normal('tilt', ...purpose, axis);
  return moved(state, index, { piston: 0, right: slope('right'), up: slope('up') });
}

function moved(state: HiddenState, index: number, by: Pose): HiddenState {
  return { ...state, poses: state.poses.map((pose, k) => (k === index ? addPose(pose, by) : pose)) };
}

function counting(state: HiddenState, what: string): [HiddenState, number] {
  const count = state.done.get(what) ?? 0;
  return [{ ...state, done: new Map(state.done).set(what, count + 1) }, count];
}

function addTube(one: Tube, other: Tube): Tube {
  return {
    right: one.right + other.right,
    up: one.up + other.up,
    turnRight: one.turnRight + other.turnRight,
    turnUp: one.turnUp + other.turnUp,
  };
}
