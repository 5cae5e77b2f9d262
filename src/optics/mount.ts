/**
 * The effect of a turn of a screw on a mirror: the plane through three tips, exactly.
 *
 * The plate rests on three tips. Each screw advances its own; the mirror is the plane through all three. The height of
 * that plane is linear in the advances, so poses of several turns simply add, with no small-angle step anywhere.
 *
 * Axes: x right and y up on the plate, seen from BEHIND the mirror, mm from the mirror's centre; heights toward the
 * beam side, mm. Signs: turns positive = in; `in: 1` where turning in moves that corner toward the beam side.
 * Tolerance: exact to rounding, magnified by how flat the triangle of tips is (see FLATTEST).
 */

/** A place on the plate. */
interface PlatePoint {
  readonly right: number;
  readonly up: number;
}

/** A named tip on the plate. */
export interface Tip extends PlatePoint {
  readonly name: string;
}

/** A screw, at the place of its tip. */
export interface Screw extends Tip {
  /** mm of advance per turn */
  readonly pitch: number;
  /** +1: turning in moves this corner toward the beam side; −1: away from it */
  readonly in: 1 | -1;
}

/** Three screws, or a fixed pivot and two. */
export interface Mount {
  readonly screws: readonly Screw[];
  readonly pivot?: PlatePoint;
}

/**
 * The mirror's surface as a height over its nominal plane: h(x, y) = piston + right·x + up·y, in mm toward the beam
 * side, with x and y in mm on the plate seen from behind. `right` and `up` are slopes (tangents of angles).
 */
export interface Pose {
  readonly piston: number;
  readonly right: number;
  readonly up: number;
}

export const AT_REST: Pose = { piston: 0, right: 0, up: 0 };

/** The sum of two poses: poses of several turns add exactly. */
export function addPose(a: Pose, b: Pose): Pose {
  return { piston: a.piston + b.piston, right: a.right + b.right, up: a.up + b.up };
}

/** A pose times a number of turns. */
export function scalePose(pose: Pose, by: number): Pose {
  return { piston: pose.piston * by, right: pose.right * by, up: pose.up * by };
}

/**
 * The pose that ONE turn in of a screw gives: multiply by turns and add. Undefined where the mount has no such screw,
 * or its places do not determine the pose (`placesProblem`).
 */
export function turnEffect(mount: Mount, screwName: string): Pose | undefined {
  const tips = tipsOf(mount);
  const turned = mount.screws.findIndex((screw) => screw.name === screwName);
  const screw = mount.screws[turned];
  if (screw === undefined || placesProblem(mount) !== undefined) return undefined;
  const [a, b, c] = [tips[turned], tips[(turned + 1) % 3], tips[(turned + 2) % 3]];
  if (a === undefined || b === undefined || c === undefined) return undefined;
  return heightOver(a, b, c, screw.in * screw.pitch);
}

/** The plane that has `height` at tip a and none at b and c: it tilts about the line through b and c. */
function heightOver(a: PlatePoint, b: PlatePoint, c: PlatePoint, height: number): Pose {
  const per = height / twiceArea(a, b, c);
  return {
    piston: per * (b.right * c.up - c.right * b.up),
    right: per * (b.up - c.up),
    up: per * (c.right - b.right),
  };
}

/** Why places do not determine a pose. */
export type PlacesProblem = 'too few' | 'too many' | 'same name' | 'in line';

/**
 * A flatter triangle of tips (least height to longest side) is refused: its effect depends on the rounding of its
 * places.
 */
const FLATTEST = 0.02;

/** Why the places of a mount do not determine the effect of a turn; undefined if they do. Never throws. */
export function placesProblem(mount: Mount): PlacesProblem | undefined {
  const [a, b, c, fourth] = tipsOf(mount);
  if (a === undefined || b === undefined || c === undefined) return 'too few';
  if (fourth !== undefined) return 'too many';
  if (new Set(mount.screws.map((screw) => screw.name)).size < mount.screws.length) return 'same name';
  const longest = Math.max(distance(a, b), distance(b, c), distance(c, a));
  return Math.abs(twiceArea(a, b, c)) > FLATTEST * longest * longest ? undefined : 'in line';
}

function tipsOf(mount: Mount): readonly PlatePoint[] {
  return mount.pivot === undefined ? mount.screws : [...mount.screws, mount.pivot];
}

/** Twice the signed area of the triangle of tips, mm²: the determinant of the 3 × 3 system for the plane. */
function twiceArea(a: PlatePoint, b: PlatePoint, c: PlatePoint): number {
  return (b.right - a.right) * (c.up - a.up) - (c.right - a.right) * (b.up - a.up);
}

function distance(a: PlatePoint, b: PlatePoint): number {
  return Math.hypot(a.right - b.right, a.up - b.up);
}

/**
 * Places as seen from behind the mirror, from places as seen facing the screw heads. Heads behind: the same; heads on
 * the beam side: right and left swap, up stays.
 */
export function seenFromBehind<T extends PlatePoint>(
  places: readonly T[],
  heads: 'behind' | 'beam side',
): readonly T[] {
  return heads === 'behind' ? places : places.map((place) => ({ ...place, right: 0 - place.right }));
}
