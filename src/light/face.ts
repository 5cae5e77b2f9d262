/** What a mirror's own round face, met at 45°, takes of the beam. */
import { directionVector, viewer, type Direction, type Machine } from '../model/index.ts';
import { dot } from '../optics/index.ts';
import { transmissionAtSlant } from './clipping.ts';

/**
 * The share lost, by the beam's diameter and its place in the viewer's frame, if the aperture of this element were its
 * face; undefined where it is no mirror.
 */
export function onFace(
  machine: Machine,
  index: number,
): ((diameter: number, right: number, up: number) => number) | undefined {
  const { kind, sends, aperture } = machine.path[index]!;
  if (kind !== 'mirror' || sends === undefined) return undefined;
  const { right, up } = viewer(arriving(machine, index));
  const out = directionVector(sends);
  // The plane of incidence holds the leg that leaves: to the right, to the left, up or down of who looks along the beam.
  const isSideways = Math.abs(dot(out, right)) > Math.abs(dot(out, up));
  return (diameter, x, y) =>
    1 - transmissionAtSlant(aperture, diameter, isSideways ? { within: x, across: y } : { within: y, across: x });
}

function arriving({ source, path }: Machine, index: number): Direction {
  return (
    path.slice(0, index).findLast(({ kind, sends }) => kind === 'mirror' && sends !== undefined)?.sends ?? source.fires
  );
}
