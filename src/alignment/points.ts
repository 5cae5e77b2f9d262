/** Repeated readings of one tape place put together: what a person sees as one mark. */
import { grouped } from './grouped.ts';
import type { Taken } from './state.ts';

export interface Point {
  readonly carriages: Readonly<Record<string, number>>;
  readonly height: number;
  /** mm, weighted means; absent where no shot gave that part. */
  readonly right?: number;
  readonly up?: number;
  /** Standard uncertainty of either part, mm. */
  readonly u: number;
  /** The beam missed at the last shot here. */
  readonly none: boolean;
  readonly first: Taken;
}

/** A point with both its parts. */
export type Mark = Point & { readonly right: number; readonly up: number };

/** Marks on the station's own tape. */
export function points(readings: readonly Taken[]): Point[] {
  const own = readings.filter((reading) => reading.height === 0);
  return grouped(own, (reading) => JSON.stringify(reading.carriages)).map(together);
}

export function isMark(point: Point): point is Mark {
  return point.right !== undefined && point.up !== undefined && !point.none;
}

/** Separate tapes are placed separately: their uncertainties average out (JCGM 100, 5.1). */
function together(readings: readonly Taken[]): Point {
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

function weightedMean(readings: readonly Taken[], part: 'right' | 'up'): { value: number; u: number } | undefined {
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
