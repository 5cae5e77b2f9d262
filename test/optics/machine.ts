/**
 * The bench engraver of the worked example, and short ways to move its parts.
 *
 * Most tests move one thing on one known machine; here that is one call. Units: mm, slopes, turns (positive = in).
 */
import {
  addPose,
  nominal,
  scalePose,
  turnEffect,
  type Direction,
  type Element,
  type Layout,
  type Mount,
  type Pose,
  type Setting,
  type Tube,
  type Vector,
} from '../../src/optics/index.ts';

/**
 * Three M4 screws on three corners of a 44 mm square, the upper right one empty, seen from behind; in = toward the
 * beam.
 */
export const CORNER: Mount = {
  screws: [
    { name: 'A', right: -22, up: 22, pitch: 0.7, in: 1 },
    { name: 'B', right: 22, up: -22, pitch: 0.7, in: 1 },
    { name: 'C', right: -22, up: -22, pitch: 0.7, in: 1 },
  ],
};

export function mirror(
  name: string,
  sends: Direction,
  leg: number | Record<string, number>,
  inset: number = 0,
): Element {
  const where = typeof leg === 'number' ? { leg } : { stops: leg };
  return { name, kind: 'mirror', sends, inset, mount: CORNER, ...where };
}

export const ENGRAVER: Layout = {
  fires: 'left',
  elements: [
    mirror('M1', 'front', 90),
    mirror('M2', 'right', { near: 130, far: 690 }),
    mirror('M3', 'down', { near: 70, far: 910 }),
    { name: 'lens', kind: 'lens', leg: 60, inset: 0 },
  ],
};

export const FAR = { M2: 690, M3: 910 };

/** Turns by screw, of the mirror at `index`, as a pose. */
export function turned(layout: Layout, index: number, turns: Readonly<Record<string, number>>): Pose {
  const mount = layout.elements[index]?.mount;
  if (mount === undefined) throw new Error(`element ${index} has no mount`);
  return Object.entries(turns)
    .map(([screw, amount]) => scalePose(turnEffect(mount, screw) ?? fail(screw), amount))
    .reduce(addPose);
}

function fail(screw: string): never {
  throw new Error(`no effect known of screw ${screw}`);
}

/** The nominal setting with one mirror posed. */
export function posed(layout: Layout, index: number, pose: Pose): Setting {
  return withMirror(layout, index, { pose });
}

/** The nominal setting with one block moved, mm, machine frame. */
export function shifted(layout: Layout, index: number, shift: Vector): Setting {
  return withMirror(layout, index, { shift });
}

function withMirror(layout: Layout, index: number, change: Partial<Setting['mirrors'][number]>): Setting {
  const setting = nominal(layout);
  return { ...setting, mirrors: setting.mirrors.map((was, at) => (at === index ? { ...was, ...change } : was)) };
}

/** The nominal setting with the tube moved or turned. */
export function tubeAt(layout: Layout, tube: Partial<Tube>): Setting {
  const setting = nominal(layout);
  return { ...setting, tube: { ...setting.tube, ...tube } };
}
