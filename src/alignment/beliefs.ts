/** What is believed of every unknown before the readings of an epoch: the machine's priors, and what earlier epochs taught. */
import type { PriorName } from '../model/index.ts';
import { screwKey } from './moved.ts';
import { prior } from './state.ts';
import type { System } from './system.ts';

/** Mean and standard deviation of one unknown: mm, slope, or slope per turn. */
export interface Belief {
  readonly mean: number;
  readonly u: number;
}

/** By `gainKey`: what a screw was found to do. */
export type Learnt = ReadonlyMap<string, Belief>;

export function gainKey(part: string, screw: string, axis: number): string {
  return `${screwKey(part, screw)}/${axis}`;
}

/** In the order of `unknowns.ts`. */
export function beliefs(of: System, learnt: Learnt): Belief[] {
  const zero = (name: PriorName): Belief => ({ mean: 0, u: prior(of.machine, name) });
  return [
    zero('tubeOffset'), zero('tubeOffset'), zero('tubeAngle'), zero('tubeAngle'),
    ...of.mirrors.flatMap(() => [zero('mirrorTilt'), zero('mirrorTilt')]),
    ...of.stations.flatMap(() => [zero('apertureOffset'), zero('apertureOffset')]),
    ...of.screws.flatMap((screw) => [0, 1].map((axis) =>
      learnt.get(gainKey(screw.part, screw.screw, axis)) ?? placed(screw, axis) ?? zero('screwTilt'))),
  ];
}

/** From the mount's geometry; its doubt is taken along the effect and across it alike. */
function placed({ effect, doubt }: System['screws'][number], axis: number): Belief | undefined {
  return effect && { mean: axis === 0 ? effect.right : effect.up, u: doubt * Math.hypot(effect.right, effect.up) };
}
