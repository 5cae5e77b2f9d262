/**
 * What the workbook of a simulated machine does not show: how far everything is off as found, what its screws really
 * do, and at the highest level a fault. Drawn from seed and level for the machine that the workbook describes.
 *
 * mm, slopes, turns (positive = in); elements by their index in the path.
 */
import { lookup, type Machine, type MountDescription, type Simulation } from '../model/index.ts';
import {
  placesProblem,
  seenFromBehind,
  turnEffect,
  type Layout,
  type Mount,
  type Pose,
  type Tube,
} from '../optics/index.ts';
import { draws, type Draws, type Purpose } from './draw.ts';
import { faultOf, type Fault } from './fault.ts';
import { layoutOf } from './layout.ts';

/** One screw of one mirror, as it really is. */
export interface HiddenScrew {
  /** In its mount: names are the user's own and may change. */
  readonly index: number;
  /** What one turn in does to the mirror. */
  readonly effect: Pose;
  /** Turns that are lost when it is turned back. */
  readonly play: number;
}

/** The hidden machine, before anything in the log was done. */
export interface Hidden {
  readonly machine: Machine;
  readonly layout: Layout;
  readonly draw: Draws;
  readonly fault: Fault | undefined;
  /** By mirror and name of the screw. */
  readonly screws: ReadonlyMap<string, HiddenScrew>;
  readonly tube: Tube;
  readonly poses: readonly Pose[];
  readonly apertures: readonly { readonly right: number; readonly up: number }[];
}

/** The deviations of a machine as found; `tilt` of a mirror, uniform up to this on either axis. */
interface Deviations {
  readonly tube: number;
  readonly tubeAngle: number;
  readonly tilt: number;
  readonly piston: number;
  readonly aperture: number;
}

/** By level: a beginner's first mark lies on its tape, and the tube is where it belongs. */
const DEVIATIONS: readonly Deviations[] = [
  { tube: 0.4, tubeAngle: 0.0005, tilt: 0.008, piston: 0.2, aperture: 0.2 },
  { tube: 0.4, tubeAngle: 0.0005, tilt: 0.005, piston: 0.2, aperture: 0.3 },
  { tube: 1.2, tubeAngle: 0.001, tilt: 0.006, piston: 0.3, aperture: 0.4 },
  { tube: 1.2, tubeAngle: 0.001, tilt: 0.006, piston: 0.3, aperture: 0.4 },
  { tube: 1.2, tubeAngle: 0.001, tilt: 0.006, piston: 0.3, aperture: 0.4 },
];

/** What a turn does deviates from the pitch by this standard deviation, and by no more than three of it. */
const GAIN = 0.1;
const MOST_GAIN = 3;
/** Turns. */
const MOST_PLAY = 0.02;

/** The highest level. */
const LEVELS = DEVIATIONS.length;

/** The hidden machine of a workbook with `practice`. */
export function hiddenMachine(machine: Machine, { seed, level }: Simulation): Hidden {
  const draw = draws(seed);
  const layout = layoutOf(machine);
  const off = DEVIATIONS[Math.min(Math.max(1, level), LEVELS) - 1]!;
  const fault = level >= LEVELS ? faultOf(draw) : undefined;
  const about = (width: number, ...purpose: readonly (string | number)[]) => width * draw.normal(level, ...purpose);
  const tilt = (index: number, axis: string) =>
    level === 1 ? largeTilt(draw, axis, 'found', index) : off.tilt * (2 * draw.uniform(level, 'tilt', index, axis) - 1);
  return {
    machine,
    layout,
    draw,
    fault,
    screws: screwsOf(machine, draw, fault),
    tube: {
      right: about(off.tube, 'tube right'),
      up: about(off.tube, 'tube up'),
      turnRight: about(off.tubeAngle, 'tube turns right'),
      turnUp: about(off.tubeAngle, 'tube turns up'),
    },
    poses: layout.elements.map((_, index) => ({
      piston: about(off.piston, 'piston', index),
      right: tilt(index, 'right'),
      up: tilt(index, 'up'),
    })),
    apertures: layout.elements.map((_, index) => ({
      right: about(off.aperture, 'aperture right', index),
      up: about(off.aperture, 'aperture up', index),
    })),
  };
}

/** Slope of the mirror of the first level: never in order, and its mark never beside the tape. */
export function largeTilt(draw: Draws, ...purpose: Purpose): number {
  const size = DEVIATIONS[0]!.tilt * (0.5 + 0.5 * draw.uniform('large tilt', ...purpose));
  return draw.uniform('large tilt side', ...purpose) < 0.5 ? -size : size;
}

/** Key of a screw. */
export function screwKey(mirror: number, screw: string): string {
  return `${mirror} ${screw}`;
}

function screwsOf(machine: Machine, draw: Draws, fault: Fault | undefined): Map<string, HiddenScrew> {
  const screws = new Map<string, HiddenScrew>();
  for (const [mirror, element] of machine.path.entries()) {
    const described = element.mount === undefined ? undefined : lookup(machine.mounts, element.mount);
    if (element.kind !== 'mirror' || !described) continue;
    const mount = realMount(described, draw, fault);
    for (const [index, name] of Object.keys(described.screws).entries()) {
      const effect = turnEffect(mount, name);
      if (!effect) continue;
      const deviation = Math.max(-MOST_GAIN, Math.min(MOST_GAIN, draw.normal('gain', mirror, index)));
      const gain = 1 + GAIN * deviation;
      screws.set(screwKey(mirror, name), {
        index,
        effect: { piston: gain * effect.piston, right: gain * effect.right, up: gain * effect.up },
        play: MOST_PLAY * draw.uniform('play', mirror, index),
      });
    }
  }
  return screws;
}

/** M4, for a mount without a pitch. */
const PITCH = 0.7;
/** mm from the mirror's centre. */
const ARM = 22;

/** The mount as it is: as described, or where nobody measured the places, drawn. */
function realMount(described: MountDescription, draw: Draws, fault: Fault | undefined): Mount {
  const given = describedMount(described, fault === 'described');
  return given ?? unmeasured(Object.keys(described.screws), described.pitch ?? PITCH, draw);
}

/** Undefined if the places do not determine what a turn does. @param isReversed in moves the tips the other way */
export function describedMount(described: MountDescription, isReversed = false): Mount | undefined {
  const { pitch = PITCH, heads, pivot } = described;
  const sense = (described.in === 'toward beam') !== isReversed ? 1 : -1;
  const names = Object.keys(described.screws);
  const places = names.flatMap((name) => {
    const { right, up } = described.screws[name]!;
    return right && up ? [{ name, right: right.value, up: up.value }] : [];
  });
  const fixed = pivot && [{ right: pivot.right.value, up: pivot.up.value }];
  const given: Mount = {
    screws: seenFromBehind(places, heads).map((place) => ({ ...place, pitch, in: sense })),
    ...(fixed && { pivot: seenFromBehind(fixed, heads)[0]! }),
  };
  return places.length === names.length && placesProblem(given) === undefined ? given : undefined;
}

/** Three corners of a square plate in an order that nobody wrote down; what has no screw is a fixed point. */
function unmeasured(names: readonly string[], pitch: number, draw: Draws): Mount {
  const corners = [0, 1, 2, 3].map((corner) => ({
    right: corner % 2 === 0 ? -ARM : ARM,
    up: corner < 2 ? ARM : -ARM,
    rank: draw.uniform('corner', corner),
  }));
  const [first, second, third] = corners.toSorted((one, other) => one.rank - other.rank);
  const sense = draw.uniform('sense') < 0.5 ? 1 : -1;
  const at = [first!, second!, third!];
  const screws = names
    .slice(0, 3)
    .map((name, k) => ({ name, right: at[k]!.right, up: at[k]!.up, pitch, in: sense }) as const);
  return screws.length < 3 ? { screws, pivot: third! } : { screws };
}
