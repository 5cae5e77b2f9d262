/** From the marks of one shot to one reading with its standard uncertainty. */
import type { Mark, Shot } from '../model/index.ts';
import { othersAt, carriagesAt, type Station } from '../machine/index.ts';
import { worstShape } from './shapes.ts';
import type { State } from './state.ts';
import type { Moment, LoggedReading } from './logged-reading.ts';

/**
 * Default reading uncertainty, used without a limits cell: steps of half a millimetre, the tape set by hand (common
 * practice). mm.
 */
export const READING = { resolution: 0.5, placing: 0.2 } as const;

/** From this number of marks on, their own scatter is more reliable than the step of the rule. */
const ENOUGH_REPEATS = 4;

/** Combines the marks of one shot; mm, viewer's right and up. A coordinate without a mark stays unread. */
export function readingOf(shot: Shot, station: Station, state: State, moment: Moment): LoggedReading {
  const { resolution, placing } = state.limits?.reading ?? READING;
  const right = parts(shot.marks, 'right');
  const up = parts(shot.marks, 'up');
  const variance = Math.max(readingVariance(right, resolution), readingVariance(up, resolution));
  // Carriages after the station do not move its mark.
  const carriages = carriagesAt(station, shot.carriages);
  return {
    station: station.index,
    at: shot.at,
    with: othersAt(station, carriages),
    carriages,
    height: shot.height,
    ...(right.length > 0 && { right: mean(right) }),
    ...(up.length > 0 && { up: mean(up) }),
    // Marks on one piece of tape share its placing error: only the reading itself averages out (JCGM 100, 4.3.7 and
    // 5.2).
    u: Math.sqrt(variance + placing ** 2),
    none: shot.marks.length > 0 && shot.marks.every((mark) => mark.none === true),
    ...worstShape(shot.marks),
    count: shot.marks.length,
    ...(right.length > 1 &&
      up.length > 1 && {
        scatter: {
          count: Math.min(right.length, up.length),
          right: squares(right),
          up: squares(up),
          u: Math.hypot(resolution / Math.sqrt(12), placing),
        },
      }),
    cell: moment.cell,
    path: shot.path,
    order: moment.order,
  };
}

function parts(marks: readonly Mark[], axis: 'right' | 'up'): number[] {
  return marks.flatMap((mark) => mark[axis] ?? []);
}

/**
 * Variance of the mean of the values: a rectangular distribution one step wide (JCGM 100, 4.3.7), or the scatter if it
 * is larger.
 */
function readingVariance(values: readonly number[], resolution: number): number {
  const step = resolution ** 2 / 12;
  const single = values.length < ENOUGH_REPEATS ? step : Math.max(step, sampleVariance(values));
  return single / Math.max(1, values.length);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function sampleVariance(values: readonly number[]): number {
  return squares(values) / (values.length - 1);
}

/** Sum of squared deviations from the mean. */
function squares(values: readonly number[]): number {
  const middle = mean(values);
  return values.reduce((sum, value) => sum + (value - middle) ** 2, 0);
}
