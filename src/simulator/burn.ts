/** One shot of the simulated machine: where the tape burns. mm, viewer's frame, from the centre of the aperture. */
import { hit, trace, type Carriages, type Hit, type Setting, type Vector } from '../optics/index.ts';
import { LOOSE, SAG } from './fault.ts';
import type { Hidden } from './hidden.ts';
import { alongTravel, travelsOf } from './layout.ts';
import type { HiddenState } from './state.ts';

/** A shot: the station, the legs of the carriages, and for a tape on the bed how far it is below the station, mm. */
export interface FiredAt {
  readonly station: string;
  readonly carriages: Carriages;
  readonly height: number;
}

/** The middle of the burn and its diameter; or the beam missed the tape. */
export type Burn =
  | { readonly right: number; readonly up: number; readonly size: number; readonly none?: never }
  | { readonly none: true };

/** mm past the rim of the aperture: tape is not cut to size. */
export const TAPE_REACH = 3;
/** mm: a tape on the bed is put where the eye says. */
const BED = 3;
/** The burn of a short pulse: mm at the tube, and growth per mm of path. */
const BURN = { size: 2.4, growth: 0.0008 } as const;

/**
 * @param shot identifies the shot in the log: two of them differ only where something is loose
 * @returns undefined if the machine has no such station
 */
export function burnAt(
  hidden: Hidden,
  state: HiddenState,
  { station, carriages, height }: FiredAt,
  shot: readonly number[],
): Burn | undefined {
  const { layout, machine, draw } = hidden;
  const index = layout.elements.findIndex(({ name }) => name === station);
  if (index < 0) return undefined;
  const setting = settingAt(hidden, shaken(hidden, state, shot), carriages);
  const hits = trace(layout, setting, carriages, index);
  const passes = hits.every(
    (mark, k) => (k === index && height === 0) || isWithin(mark, machine.path[k]!.aperture / 2),
  );
  const mark = passes ? hit(layout, setting, carriages, index, height) : undefined;
  const radius = machine.path[index]!.aperture / 2;
  if (!mark || (height === 0 && !isWithin(mark, radius + TAPE_REACH))) return { none: true };
  const laid = height === 0 ? CENTRED : tapeOnBed(draw, state, carriages);
  return {
    right: hundredth(mark.right - laid.right),
    up: hundredth(mark.up - laid.up),
    size: hundredth(BURN.size + BURN.growth * pathTo(hidden, index, carriages)),
  };
}

const CENTRED = { right: 0, up: 0 } as const;

function isWithin(mark: Hit | undefined, radius: number): boolean {
  return mark !== undefined && mark.right * mark.right + mark.up * mark.up <= radius * radius;
}

/** Positions are stored and drawn to a hundredth: no engine rounds them differently. */
function hundredth(mm: number): number {
  return Math.round(mm * 100) / 100 + 0;
}

function pathTo({ layout }: Hidden, index: number, carriages: Carriages): number {
  return layout.elements
    .slice(0, index + 1)
    .reduce(
      (sum, { name, leg, stops }) => sum + (leg ?? carriages[name] ?? Math.min(...Object.values(stops ?? {}))),
      0,
    );
}

/** A tape on the bed lies where it lies until something of the machine or the carriages is moved. */
function tapeOnBed(
  draw: Hidden['draw'],
  { done }: HiddenState,
  carriages: Carriages,
): { readonly right: number; readonly up: number } {
  const moves = [...done.values()].reduce((sum, count) => sum + count, 0);
  const legs = Object.entries(carriages).flatMap(([name, leg]) => [name, Math.round(leg)]);
  return { right: BED * draw.normal('bed right', moves, ...legs), up: BED * draw.normal('bed up', moves, ...legs) };
}

/** A loose first mirror stands differently at every shot. */
function shaken({ fault, draw }: Hidden, state: HiddenState, shot: readonly number[]): HiddenState {
  if (fault !== 'loose' || state.isTightened) return state;
  const slope = (axis: string) => LOOSE * draw.normal('loose', axis, ...shot);
  const poses = state.poses.map((pose, k) =>
    k === 0 ? { ...pose, right: pose.right + slope('right'), up: pose.up + slope('up') } : pose,
  );
  return { ...state, poses };
}

/** What the trace needs: with a bowed rail, everything on the first carriage and behind it sags between the ends. */
export function settingAt(hidden: Hidden, { tube, poses, shifts }: HiddenState, carriages: Carriages): Setting {
  const { layout, fault, apertures } = hidden;
  const [first] = travelsOf(layout);
  const along = first && fault === 'bowed' ? alongTravel(layout, first, carriages) : 0;
  const sag = 4 * SAG * along * (1 - along);
  return {
    tube,
    apertures,
    mirrors: layout.elements.map((_, k) => {
      const [x, y, z] = shifts[k]!;
      const shift: Vector = first && k >= first.index ? [x, y, z - sag] : [x, y, z];
      return { pose: poses[k]!, shift };
    }),
  };
}
