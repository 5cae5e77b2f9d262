/**
 * What priors and readings say of the unknowns, as one linear system: the exact trace about one point, each reading with
 * its own noise and what is not known of the moves since. Rows and unknowns in mm, slopes, slopes per turn.
 */
import { fromRows, type Matrix } from '../statistics/index.ts';
import type { Belief } from './beliefs.ts';
import { between, type Moved } from './moved.ts';
import type { Taken } from './state.ts';
import type { System } from './system.ts';
import { marksAfter, sensitivity, unknownMoves, type Sensitivity } from './unknowns.ts';

export interface Equations {
  /** The unknowns that the readings speak of: which column of the design is which. */
  readonly unknown: readonly number[];
  /** First a row per prior, then one per part read; columns are the unknowns, then two for each tape on the bed. */
  readonly design: Matrix;
  /** Standard uncertainty of each row. */
  readonly widths: readonly number[];
  /** The right side as the exact trace has it from `values` (all unknowns), so that solving again corrects for its bend. */
  observed(values: Float64Array): number[];
}

/** A reading with what was moved since, and how it changes with each unknown. */
interface Traced {
  readonly reading: Taken;
  readonly since: Moved;
  readonly slopes: Sensitivity;
}

const AXES = [
  { part: 'right', by: 'byRight' },
  { part: 'up', by: 'byUp' },
] as const;

/** mm: wider than any bed. */
const TAPE_ANYWHERE = 1000;
/** A quantity known exactly (a doubt of 0 %) still needs a width to stand in the equations. */
const NARROWEST = 1e-9;

/** @param from the point about which the trace is taken as straight */
export function equations(of: System, priors: readonly Belief[], readings: readonly Taken[], now: Moved, from: Float64Array): Equations {
  const traced = readings.flatMap((reading): Traced[] => {
    if (isBeyondTape(of, reading)) return [];
    const since = between(reading.moved, now);
    const slopes = sensitivity(of, from, reading, since, -1);
    return slopes ? [{ reading, since, slopes }] : [];
  });
  const unknown = priors.flatMap((_, index) => (traced.some(({ slopes }) => slopes.byRight[index] !== 0 || slopes.byUp[index] !== 0) ? [index] : []));
  const tapes = bedTapes(readings);
  const believed = [...unknown.map((index) => priors[index]!), ...Array.from({ length: 2 * tapes.size }, () => ({ mean: 0, u: TAPE_ANYWHERE }))];
  const rows = believed.map((_, index) => new Float64Array(believed.length).fill(1, index, index + 1));
  const widths = believed.map(({ u }) => Math.max(u, NARROWEST));
  for (const { reading, since, slopes } of traced) {
    const noise = unknownMoves(of, since);
    const tape = reading.height > 0 ? tapes.get(tapeKey(reading)) : undefined;
    AXES.forEach(({ part, by }, axis) => {
      if (reading[part] === undefined) return;
      const row = new Float64Array(believed.length);
      unknown.forEach((index, column) => { row[column] = slopes[by][index]!; });
      if (tape !== undefined) row[unknown.length + 2 * tape + axis] = 1;
      rows.push(row);
      widths.push(Math.sqrt(reading.u ** 2 + slopes[by].reduce((sum, slope, index) => sum + slope ** 2 * noise[index]!, 0)));
    });
  }
  return {
    unknown,
    design: fromRows(rows),
    widths,
    observed: (values) => [...believed.map(({ mean }) => mean), ...traced.flatMap((one) => rightSide(of, one, values))],
  };
}

/** No tape is so many times as wide as its hole: such a reading is a slip of the pen, said elsewhere, and teaches nothing. */
const TAPE = 5;

function isBeyondTape(of: System, { station, height, right = 0, up = 0 }: Taken): boolean {
  return height === 0 && Math.hypot(right, up) > TAPE * of.stations[station]!.element.aperture;
}

/** Reading − trace + slopes · values, of the parts that were read. Where the beam now misses, as where the slopes were taken. */
function rightSide(of: System, { reading, since, slopes }: Traced, values: Float64Array): number[] {
  const marks = marksAfter(of, values, [reading], since, -1) ?? [slopes.right, slopes.up];
  return AXES.flatMap(({ part, by }, axis) => {
    const value = reading[part];
    return value === undefined ? [] : [value - marks[axis]! + slopes[by].reduce((sum, slope, index) => sum + slope * values[index]!, 0)];
  });
}

/** A tape on the bed lies anywhere: each adds two unknowns, the place of its middle. */
function bedTapes(readings: readonly Taken[]): ReadonlyMap<string, number> {
  const keys = readings.filter((reading) => reading.height > 0).map(tapeKey);
  return new Map([...new Set(keys)].map((key, order) => [key, order]));
}

/** Shots of one cell with the carriages in one place share the tape that lies on the bed. */
export function tapeKey(reading: Taken): string {
  return `${reading.order} ${JSON.stringify(reading.carriages)}`;
}
