/** What a turn does to a mark by the description of the mount alone, as a drawing of it shows. mm a turn in. */
import { lookup, type Machine } from '../model/index.ts';
import { nominal, trace, turnEffect, type Carriages } from '../optics/index.ts';
import { describedMount } from './hidden.ts';
import { layoutOf } from './layout.ts';

/** Small enough to be linear: turns. */
const STEP = 0.01;

/**
 * @param mirror index in the path
 * @returns undefined if the places of the screws are not given, or there is no such screw or station
 */
export function describedResponse(
  machine: Machine,
  mirror: number,
  screw: string,
  at: { readonly station: string; readonly carriages: Carriages },
): { readonly right: number; readonly up: number } | undefined {
  const layout = layoutOf(machine);
  const mount = lookup(machine.mounts, machine.path[mirror]?.mount ?? '');
  const described = mount && describedMount(mount);
  const effect = described && turnEffect(described, screw);
  const index = layout.elements.findIndex(({ name }) => name === at.station);
  if (!effect || index < 0) return undefined;
  const before = nominal(layout);
  const mirrors = before.mirrors.map((one, k) =>
    k === mirror
      ? { ...one, pose: { piston: STEP * effect.piston, right: STEP * effect.right, up: STEP * effect.up } }
      : one,
  );
  const mark = trace(layout, { ...before, mirrors }, at.carriages, index)[index];
  return mark && { right: mark.right / STEP, up: mark.up / STEP };
}
