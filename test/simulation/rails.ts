/**
 * Rails that sag, and a gantry that yaws along its travel: the independent ray tracer, applied in the gantry's own
 * frame. Axes: machine frame x right, y rear, z up; marks in the viewer's frame; mm, rad, slopes.
 */
import { Vector3 } from 'three';
import type { Carriages, Element, Layout, Setting, Vector } from '../../src/optics/index.ts';
import { lookAlong, refereeTrace, type Mark, type Turns } from '../optics/referee.ts';

export interface Rails {
  /** By how much the gantry's rail and the head's sag in the middle, mm: a parabola, 0 at both ends of the travel. */
  readonly sag: number;
  /** By how much the gantry yaws along its travel, rad per mm, counter-clockwise from above; 0 in the middle. */
  readonly yaw: number;
}

interface Travel {
  readonly near: number;
  readonly far: number;
}

const GANTRY = 1;
const HEAD = 2;

/** The marks of a machine whose elements from the second on ride the gantry, from the third on the head as well. */
// biome-ignore lint/complexity/useMaxParams: a machine in all its parts
export function traceOnRails(
  { sag, yaw }: Rails,
  travels: { readonly M2: Travel; readonly M3: Travel },
  layout: Layout,
  setting: Setting,
  turns: Turns,
  carriages: Carriages,
): readonly (Mark | null)[] {
  const sagAt = ({ near, far }: Travel, leg: number) => (4 * sag * (leg - near) * (far - leg)) / (far - near) ** 2;
  const [gantry, head] = [sagAt(travels.M2, carriages['M2']!), sagAt(travels.M3, carriages['M3']!)];
  const mirrors = setting.mirrors.map((mirror, k) => ({
    ...mirror,
    shift: lowered(
      mirror.shift,
      isCarried(layout.elements[k]!) ? (k >= GANTRY ? gantry : 0) + (k >= HEAD ? head : 0) : 0,
    ),
  }));
  return traceYawed(
    yaw * (carriages['M2']! - (travels.M2.near + travels.M2.far) / 2),
    layout,
    { ...setting, mirrors },
    turns,
    carriages,
  );
}

/** A tape on the bed stays where it lies. */
function isCarried({ kind }: Element): boolean {
  return kind !== 'station';
}

function lowered([x, y, z]: Vector, by: number): Vector {
  return [x, y, z - by];
}

/** Places after M1 at which the beam is caught, mm. */
const PROBE = 100;

/** Seen from the gantry, which turns about its own mirror, the beam from M1 is turned the other way. */
function traceYawed(
  angle: number,
  layout: Layout,
  setting: Setting,
  turns: Turns,
  carriages: Carriages,
): readonly (Mark | null)[] {
  const [first, ...carried] = layout.elements;
  const probe = { kind: 'station', leg: PROBE, inset: 0 } as const;
  const [mark, near, far] = refereeTrace(
    { ...layout, elements: [first!, { ...probe, name: 'near' }, { ...probe, name: 'far' }] },
    { ...setting, mirrors: setting.mirrors.slice(0, 1), apertures: setting.apertures.slice(0, 1) },
    turns,
    carriages,
  );
  if (!near || !far) return layout.elements.map((_, k) => (k === 0 ? mark! : null));
  const leg = carriages['M2']!;
  const frame = lookAlong(first!.sends!);
  const place = (along: number, { right, up }: Mark) =>
    new Vector3().addScaledVector(frame.along, along).addScaledVector(frame.right, right).addScaledVector(frame.up, up);
  const turned = (vector: Vector3) => vector.applyAxisAngle(new Vector3(0, 0, 1), -angle);
  const [from, to] = [turned(place(PROBE - leg, near)), turned(place(2 * PROBE - leg, far))];
  const runs = to.clone().sub(from);
  const slope = (axis: Vector3) => runs.dot(axis) / runs.dot(frame.along);
  const back = leg + from.dot(frame.along);
  const offset = (axis: Vector3) => from.dot(axis) - back * slope(axis);
  const tube = {
    right: offset(frame.right),
    up: offset(frame.up),
    turnRight: slope(frame.right),
    turnUp: slope(frame.up),
  };
  const seen = refereeTrace(
    { fires: first!.sends!, elements: carried },
    { tube, mirrors: setting.mirrors.slice(1), apertures: setting.apertures.slice(1) },
    turns.slice(1),
    carriages,
  );
  return [mark!, ...seen];
}
