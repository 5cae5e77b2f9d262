/**
 * The nominal path of the beam: its directions, the positions of tapes and mirrors, and the orientation of each plate.
 *
 * A layout has no deviations from nominal: they are in `setting.ts`. So one layout serves every evaluation of a
 * workbook.
 *
 * Axes: machine frame, x right, y rear, z up, origin in the nominal centre of the tube's exit. Units: mm. A *plate* is
 * the part of a mount that carries the mirror; its frame is seen from BEHIND the mirror: normal points to the beam
 * side, up is the machine's up projected onto the plate, right = normal × up.
 */
import { DIRECTIONS, directionVector, type Direction } from '../model/index.ts';
import type { Mount } from './mount.ts';
import { add, advance, cross, dot, length, normalise, scale, subtract, type Vector } from './vector.ts';

/** An element of the path. One with neither `leg` nor `stops`, or a mirror without `sends`, is a layout problem. */
export interface Element {
  readonly name: string;
  readonly kind: 'mirror' | 'lens' | 'station';
  /** mm from the centre of the element before (or the tube's exit) to this one's tape. */
  readonly leg?: number;
  /** The same by name, for an element that rides on a carriage. */
  readonly stops?: Readonly<Record<string, number>>;
  /** mm from the tape to the element's own centre, along the beam; the next leg starts at that centre. */
  readonly inset: number;
  /** Where a mirror sends the beam: perpendicular to the arriving one. */
  readonly sends?: Direction;
  readonly mount?: Mount;
}

/** The direction in which the tube fires, and the elements in path order. */
export interface Layout {
  readonly fires: Direction;
  readonly elements: readonly Element[];
}

/** By name of an element with stops: its leg in mm. Without an entry it is at its shortest stop. */
export type Carriages = Readonly<Record<string, number>>;

/** Unit vectors of a plate, machine frame. */
export interface Plate {
  readonly normal: Vector;
  readonly right: Vector;
  readonly up: Vector;
}

/**
 * The direction of the beam that arrives at element `index`; at `elements.length`, of the beam that leaves the last
 * one.
 */
export function arriving(layout: Layout, index: number): Direction {
  for (let before = index - 1; before >= 0; before -= 1) {
    const element = layout.elements[before];
    if (element?.kind === 'mirror' && element.sends !== undefined) return element.sends;
  }
  return layout.fires;
}

/**
 * The nominal plate of the mirror at `index`: normal = (d_out − d_in)/|d_out − d_in|. If the mirror sends the beam
 * straight on or back (problems that `checkLayout` reports), vectors that do not exist are zero.
 */
export function plate(layout: Layout, index: number): Plate {
  const arrives = arriving(layout, index);
  return plateBetween(arrives, layout.elements[index]?.sends ?? arrives);
}

/** The same for a beam that arrives in one direction and is sent in another. */
export function plateBetween(arrives: Direction, sends: Direction): Plate {
  return PLATES[arrives][sends];
}

function computePlate(arrives: Direction, sends: Direction): Plate {
  const normal = normalise(subtract(directionVector(sends), directionVector(arrives)));
  const above = directionVector('up');
  const up = length(normal) > 0 ? normalise(advance(above, normal, -dot(above, normal))) : normal;
  return { normal, right: cross(normal, up), up };
}

// 36 constants, computed once: tracing needs one at every mirror.
const PLATES = byDirection((arrives) => byDirection((sends) => computePlate(arrives, sends)));

function byDirection<T>(work: (direction: Direction) => T): Readonly<Record<Direction, T>> {
  return Object.fromEntries(DIRECTIONS.map((direction) => [direction, work(direction)])) as Record<Direction, T>;
}

/** The leg of an element, mm; 0 if the layout gives none (a problem that `checkLayout` reports). */
export function legLength(element: Element, carriages: Carriages): number {
  if (element.stops === undefined) return element.leg ?? 0;
  // A workbook may name a mirror `constructor`: only own properties count.
  if (Object.hasOwn(carriages, element.name)) return carriages[element.name] ?? 0;
  let shortest = Infinity;
  for (const stop in element.stops) shortest = Math.min(shortest, element.stops[stop] ?? Infinity);
  return Number.isFinite(shortest) ? shortest : (element.leg ?? 0);
}

/**
 * Nominal positions of an element, machine frame, mm: the centre of its tape, and its own centre `inset` further on.
 */
export interface Place {
  readonly tape: Vector;
  readonly centre: Vector;
}

/** Nominal positions of all elements in path order, from the tube's exit at (0, 0, 0). */
export function position(layout: Layout, carriages: Carriages): readonly Place[] {
  let from: Vector = [0, 0, 0];
  return layout.elements.map((element, index) => {
    const along = directionVector(arriving(layout, index));
    const tape = advance(from, along, legLength(element, carriages));
    from = add(tape, scale(along, element.inset));
    return { tape, centre: from };
  });
}

/** A problem of one element. */
export interface LayoutProblem {
  readonly index: number;
  readonly name: string;
  readonly problem: 'sends missing' | 'sends along the beam' | 'leg missing' | 'leg not positive';
}

/** Problems that make a layout impossible to trace, in path order; an empty list if there are none. Never throws. */
export function checkLayout(layout: Layout): readonly LayoutProblem[] {
  return layout.elements.flatMap((element, index) =>
    [legProblem(element), sendsProblem(layout, index)]
      .filter((problem) => problem !== undefined)
      .map((problem) => ({ index, name: element.name, problem })),
  );
}

function legProblem(element: Element): LayoutProblem['problem'] | undefined {
  const legs = element.stops === undefined ? [element.leg] : Object.values(element.stops);
  if (legs.length === 0 || legs.includes(undefined)) return 'leg missing';
  return legs.every((leg) => leg !== undefined && leg > 0) ? undefined : 'leg not positive';
}

function sendsProblem(layout: Layout, index: number): LayoutProblem['problem'] | undefined {
  const element = layout.elements[index];
  if (element?.kind !== 'mirror') return undefined;
  if (element.sends === undefined) return 'sends missing';
  const along = dot(directionVector(element.sends), directionVector(arriving(layout, index)));
  return along === 0 ? undefined : 'sends along the beam';
}
