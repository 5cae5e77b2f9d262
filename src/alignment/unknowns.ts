/**
 * The unknowns of a machine as one vector, and what they predict through the exact trace.
 *
 * In order: the tube (offset right, up in mm; direction right, up as slopes, in the viewer's frame of its beam);
 * per mirror the slopes right and up of its plate; per station the offset of its aperture (mm, viewer's frame);
 * per screw the two slopes that one turn in gives its mirror. The vector describes the machine *now*; a reading
 * taken earlier is predicted by taking back what was moved since.
 */
import { hit, nominal, type Pose, type Setting } from '../optics/index.ts';
import { screwKey, TUBE, type Moved } from './moved.ts';
import { prior } from './state.ts';
import type { System } from './system.ts';

/** One tape to be predicted. */
export interface Query {
  /** Index of the station in the path. */
  readonly station: number;
  readonly carriages: Readonly<Record<string, number>>;
  /** mm below the station */
  readonly height: number;
}

/** Where in the vector each pair of unknowns begins. */
export interface Unknowns {
  readonly count: number;
  /** Of the mirror that is `order`-th in `system.mirrors`. */
  tilt(order: number): number;
  aperture(element: number): number;
  /** Of the screw that is `order`-th in `system.screws`. */
  gain(order: number): number;
}

const TUBE_UNKNOWNS = 4;

export function unknowns(of: System): Unknowns {
  const apertures = TUBE_UNKNOWNS + 2 * of.mirrors.length;
  const gains = apertures + 2 * of.stations.length;
  return {
    count: gains + 2 * of.screws.length,
    tilt: (order) => TUBE_UNKNOWNS + 2 * order,
    aperture: (element) => apertures + 2 * element,
    gain: (order) => gains + 2 * order,
  };
}

/** The machine away from now by what was `moved`: `sign` −1 takes moves back, +1 makes them. */
export function settingOf(of: System, values: Float64Array, moved: Moved, sign: 1 | -1): Setting {
  const place = unknowns(of);
  const at = (index: number) => values[index]!;
  const rest = nominal(of.layout);
  const { tube } = moved;
  return {
    tube: {
      right: at(0) + sign * tube.right,
      up: at(1) + sign * tube.up,
      turnRight: at(2) + sign * tube.turnRight,
      turnUp: at(3) + sign * tube.turnUp,
    },
    mirrors: of.stations.map(({ name }, element) => {
      const [x, y, z] = moved.shifts.get(name) ?? [0, 0, 0];
      const order = of.mirrors.indexOf(element);
      const pose = order < 0 ? rest.mirrors[element]!.pose : poseOf(of, values, order, moved, sign);
      return { pose, shift: [sign * x, sign * y, sign * z] };
    }),
    apertures: of.stations.map((_, element) => ({ right: at(place.aperture(element)), up: at(place.aperture(element) + 1) })),
  };
}

/** The piston of now counts as none: what lies before cannot be told from the offset of the next aperture. */
function poseOf(of: System, values: Float64Array, order: number, moved: Moved, sign: 1 | -1): Pose {
  const place = unknowns(of);
  let piston = 0;
  let right = values[place.tilt(order)]!;
  let up = values[place.tilt(order) + 1]!;
  of.screws.forEach((screw, index) => {
    const turns = screw.mirror === of.mirrors[order] ? sign * (moved.turns.get(screwKey(screw.part, screw.screw)) ?? 0) : 0;
    piston += turns * (screw.effect?.piston ?? 0);
    right += turns * values[place.gain(index)]!;
    up += turns * values[place.gain(index) + 1]!;
  });
  return { piston, right, up };
}

/** Marks right, up, right, up … in mm, exactly, with what was `moved` made (`sign` +1) or taken back (−1); undefined where the beam would miss a tape's plane. */
export function marksAfter(of: System, values: Float64Array, queries: readonly Query[], moved: Moved, sign: 1 | -1): Float64Array | undefined {
  const setting = settingOf(of, values, moved, sign);
  const marks = new Float64Array(2 * queries.length);
  for (const [i, query] of queries.entries()) {
    const mark = hit(of.layout, setting, query.carriages, query.station, query.height);
    if (!mark) return undefined;
    marks.set([mark.right, mark.up], 2 * i);
  }
  return marks;
}

/** A predicted mark (mm) and how it changes with each unknown. */
export interface Sensitivity {
  readonly right: number;
  readonly up: number;
  readonly byRight: Float64Array;
  readonly byUp: Float64Array;
}

/** Steps of the differences, mm and slope: far above rounding, and where a mirror's law bends by less than a millionth. */
const STEP_LENGTH = 1e-3;
const STEP_SLOPE = 1e-6;

/** Undefined where the beam misses the tape's plane. */
export function sensitivity(of: System, values: Float64Array, query: Query, moved: Moved, sign: 1 | -1): Sensitivity | undefined {
  const place = unknowns(of);
  const setting = settingOf(of, values, moved, sign);
  const mark = (changed: Setting) => hit(of.layout, changed, query.carriages, query.station, query.height);
  const here = mark(setting);
  if (!here) return undefined;
  const byRight = new Float64Array(place.count);
  const byUp = new Float64Array(place.count);
  const differ = (index: number, width: number, change: (by: number) => Setting) => {
    const beside = mark(change(width));
    byRight[index] = beside ? (beside.right - here.right) / width : 0;
    byUp[index] = beside ? (beside.up - here.up) / width : 0;
  };
  TUBE_PARTS.forEach((part, index) => differ(index, index < 2 ? STEP_LENGTH : STEP_SLOPE, (by) => ({ ...setting, tube: { ...setting.tube, [part]: setting.tube[part] + by } })));
  of.mirrors.forEach((element, order) => {
    if (element >= query.station) return;
    SLOPES.forEach((slope, axis) => differ(place.tilt(order) + axis, STEP_SLOPE, (by) => tilted(setting, element, slope, by)));
  });
  byRight[place.aperture(query.station)] = -1;
  byUp[place.aperture(query.station) + 1] = -1;
  fillGains(of, moved, sign, byRight);
  fillGains(of, moved, sign, byUp);
  return { right: here.right, up: here.up, byRight, byUp };
}

const TUBE_PARTS = ['right', 'up', 'turnRight', 'turnUp'] as const;
const SLOPES = ['right', 'up'] as const;

function tilted(setting: Setting, element: number, slope: 'right' | 'up', by: number): Setting {
  const { pose, shift } = setting.mirrors[element]!;
  return { ...setting, mirrors: setting.mirrors.with(element, { pose: { ...pose, [slope]: pose[slope] + by }, shift }) };
}

/** A screw acts through its mirror's slopes, times what it was turned: no trace needed. */
function fillGains(of: System, moved: Moved, sign: 1 | -1, row: Float64Array): void {
  const place = unknowns(of);
  of.screws.forEach((screw, index) => {
    const turns = sign * (moved.turns.get(screwKey(screw.part, screw.screw)) ?? 0);
    const tilt = place.tilt(of.mirrors.indexOf(screw.mirror));
    row[place.gain(index)] = turns * row[tilt]!;
    row[place.gain(index) + 1] = turns * row[tilt + 1]!;
  });
}

/**
 * Variance that moves added to each unknown beyond what was meant (mm², slope²): hands, locks, optics taken out.
 * A turn read by eye has a variance in proportion to the turn, so that splitting it changes nothing.
 */
export function unknownMoves(of: System, moved: Moved): Float64Array {
  const place = unknowns(of);
  const variances = new Float64Array(place.count);
  const add = (index: number, variance: number) => { variances[index]! += variance; variances[index + 1]! += variance; };
  const tube = moved.noise.get(TUBE);
  if (tube) { add(0, tube.place); add(2, tube.tilt); }
  of.stations.forEach(({ name }, element) => add(place.aperture(element), moved.noise.get(name)?.place ?? 0));
  of.mirrors.forEach((element, order) => add(place.tilt(order), moved.noise.get(of.stations[element]!.name)?.tilt ?? 0));
  const eye = prior(of.machine, 'turnReading') ** 2;
  for (const screw of of.screws) {
    const turned = moved.turned.get(screwKey(screw.part, screw.screw)) ?? 0;
    const tilt = screw.effect ? Math.hypot(screw.effect.right, screw.effect.up) : prior(of.machine, 'screwTilt');
    add(place.tilt(of.mirrors.indexOf(screw.mirror)), eye * turned * tilt ** 2);
  }
  return variances;
}
