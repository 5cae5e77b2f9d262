/** Clipping loss at a mirror's own round face, which the beam meets at 45°. */
import { directionVector, viewer, type Direction, type Machine } from '../model/index.ts';
import { dot } from '../optics/index.ts';
import { transmissionAtSlant } from './clipping.ts';

/**
 * The clipping loss by the beam's diameter and its offset in the viewer's frame, if the aperture of this element were
 * its face; undefined if it is no mirror.
 */
export function onFace(
  machine: Machine,
  index: number,
): ((diameter: number, right: number, up: number) => number) | undefined {
  const { kind, sends, aperture } = machine.path[index]!;
  if (kind !== 'mirror' || sends === undefined) return undefined;
  const { right, up } = viewer(arriving(machine, index));
  const out = directionVector(sends);
  // The plane of incidence contains the leg that leaves the mirror.
  const isSideways = Math.abs(dot(out, right)) > Math.abs(dot(out, up));
  return (diameter, x, y) =>
    1 - transmissionAtSlant(aperture, diameter, isSideways ? { within: x, across: y } : { within: y, across: x });
}

function arriving({ source, path }: Machine, index: number): Direction {
  return (
    path.slice(0, index).findLast(({ kind, sends }) => kind === 'mirror' && sends !== undefined)?.sends ?? source.fires
  );
}
