/**
 * Straight lines through marks at several legs or heights, one for each axis.
 *
 * Slopes in rad (mm per mm), viewer's frame. Weighted least squares with the readings' own uncertainties (JCGM 100,
 * annex H.3; ISO/TS 28037 clause 6).
 */
import { lineFit } from '../statistics/index.ts';
import type { Slope } from '../model/index.ts';
import { grouped } from '../machine/index.ts';
import { tapeKey } from './innovation.ts';
import type { LoggedReading } from './logged-reading.ts';

/**
 * Mean slope of the tapes below a station. The position of a tape is unknown, so only differences between marks of one
 * tape count.
 */
export function plumbFrom(readings: readonly LoggedReading[]): Slope | undefined {
  const tapes = grouped(
    readings.filter((reading) => reading.height > 0),
    tapeKey,
  );
  const slopes = tapes.flatMap((tape) => lineThrough(tape.map((reading) => [reading.height, reading])) ?? []);
  return slopes.length === 0 ? undefined : mean(slopes);
}

interface Readable {
  readonly right?: number;
  readonly up?: number;
  readonly u: number;
}

/** Slope of marks against leg. Undefined unless both coordinates were read at two legs at least. */
export function lineThrough(marks: readonly (readonly [leg: number, mark: Readable])[]): Slope | undefined {
  const axis = (part: 'right' | 'up') => {
    const read = marks.filter(([, mark]) => mark[part] !== undefined);
    const line = lineFit(
      read.map(([leg]) => leg),
      read.map(([, mark]) => mark[part]!),
      read.map(([, mark]) => mark.u),
    );
    return line.slope === undefined ? undefined : { slope: line.slope, u: Math.sqrt(line.covariance.slope) };
  };
  const right = axis('right');
  const up = axis('up');
  return right && up && { right: right.slope, up: up.slope, u: { right: right.u, up: up.u } };
}

function mean(slopes: readonly Slope[]): Slope {
  const average = (of: (slope: Slope) => number) => slopes.reduce((sum, slope) => sum + of(slope), 0) / slopes.length;
  const u = (of: (slope: Slope) => number) => Math.sqrt(average((slope) => of(slope) ** 2) / slopes.length);
  return {
    right: average((s) => s.right),
    up: average((s) => s.up),
    u: { right: u((s) => s.u.right), up: u((s) => s.u.up) },
  };
}
