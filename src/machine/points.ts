/** Combines repeated readings of one place, which a person sees as one mark. */
import type { Reading } from '../model/index.ts';
import { grouped } from './grouped.ts';

/** The combined readings of one place. */
export interface Point<T extends Reading = Reading> {
  readonly carriages: Readonly<Record<string, number>>;
  readonly height: number;
  /** mm, weighted means; absent if no shot gave that coordinate. */
  readonly right?: number;
  readonly up?: number;
  /** Standard uncertainty of either coordinate, mm. */
  readonly u: number;
  /** Whether the beam missed at the last shot here. */
  readonly none: boolean;
  readonly first: T;
}

/** A point with both coordinates. */
export type Mark<T extends Reading = Reading> = Point<T> & { readonly right: number; readonly up: number };

/** Points on the station's own tape, one for each place. */
export function points<T extends Reading>(readings: readonly T[]): Point<T>[] {
  const own = readings.filter((reading) => reading.height === 0);
  return grouped(own, (reading) => JSON.stringify(reading.carriages)).map((some) => combine(some));
}

/** Whether a point has both coordinates and the beam did not miss. */
export function isMark<T extends Reading>(point: Point<T>): point is Mark<T> {
  return point.right !== undefined && point.up !== undefined && !point.none;
}

/** Separate tapes are placed separately: their uncertainties average out (JCGM 100, 5.1). */
function combine<T extends Reading>(readings: readonly T[]): Point<T> {
  const first = readings[0]!;
  const right = weightedMean(readings, 'right');
  const up = weightedMean(readings, 'up');
  return {
    carriages: first.carriages,
    height: first.height,
    ...(right && { right: right.value }),
    ...(up && { up: up.value }),
    u: Math.max(right?.u ?? 0, up?.u ?? 0),
    none: readings.at(-1)!.none,
    first,
  };
}

function weightedMean(readings: readonly Reading[], part: 'right' | 'up'): { value: number; u: number } | undefined {
  let weights = 0;
  let sum = 0;
  for (const reading of readings) {
    const value = reading[part];
    if (value === undefined) continue;
    weights += 1 / reading.u ** 2;
    sum += value / reading.u ** 2;
  }
  return weights > 0 ? { value: sum / weights, u: 1 / Math.sqrt(weights) } : undefined;
}
