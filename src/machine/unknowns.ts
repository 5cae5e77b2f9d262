/**
 * The unknowns of a machine as one vector, as the machine is now.
 *
 * In order: the tube (offset right, up in mm; direction right, up as slopes, in the viewer's frame of its beam); per
 * mirror its piston (mm) and its slopes right and up; per station the offset of its aperture (mm, viewer's frame); per
 * carriage its turn about the machine's axes x, y, z over its whole travel (rad) and the bend of its rail at the middle
 * of the travel (mm, across the travel: the viewer's right and up of its leg); per screw the two slopes that one turn
 * in gives its mirror. Deliberate shifts are known and stored beside the vector (mm, machine axes).
 */

/** Indexes at which each group of unknowns begins. */
export interface Unknowns {
  readonly count: number;
  /** Of the mirror that is `order`-th in `system.mirrors`: piston, right, up. */
  pose(order: number): number;
  aperture(element: number): number;
  /** Of the carriage that is `order`-th in `system.carriages`: three turns, then two bends (`BEND` further on). */
  carriage(order: number): number;
  /** Of the screw that is `order`-th in `system.screws`. */
  gain(order: number): number;
}

const TUBE_UNKNOWNS = 4;
/** Of one carriage: three turns and two bends. */
export const CARRIAGE_UNKNOWNS = 5;
/** Index of the bends among them. */
export const BEND = 3;

type Parts = Readonly<Record<'mirrors' | 'stations' | 'carriages' | 'screws', readonly unknown[]>>;

export function unknowns(of: Parts): Unknowns {
  const apertures = TUBE_UNKNOWNS + 3 * of.mirrors.length;
  const carriages = apertures + 2 * of.stations.length;
  const gains = carriages + CARRIAGE_UNKNOWNS * of.carriages.length;
  return {
    count: gains + 2 * of.screws.length,
    pose: (order) => TUBE_UNKNOWNS + 3 * order,
    aperture: (element) => apertures + 2 * element,
    carriage: (order) => carriages + CARRIAGE_UNKNOWNS * order,
    gain: (order) => gains + 2 * order,
  };
}
