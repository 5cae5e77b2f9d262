/**
 * The tilt of the beam by tapes on the bed below a station: marks of one tape at several heights show it, wherever the
 * tape lies.
 */
import { chiSquareUpper } from '../statistics/index.ts';
import { GATE_PROBABILITY } from './innovation.ts';
import type { LoggedReading } from './logged-reading.ts';

/**
 * Whether two tapes, each with marks at two heights or more, show the same tilt within reading uncertainty (p ≥ 0.001).
 */
export function tiltsAgree(then: readonly LoggedReading[], now: readonly LoggedReading[]): boolean {
  const [earlier, later] = [then, now].map(tapeTilt);
  if (!earlier || !later) return false;
  const chiSquare =
    ((earlier.right - later.right) ** 2 + (earlier.up - later.up) ** 2) / (earlier.u ** 2 + later.u ** 2);
  return chiSquareUpper(chiSquare, 2) >= GATE_PROBABILITY;
}

/** Coverage factor for the distance of a mark from a line through two others (√1.5 u) at p = 0.001. */
const STRAIGHT = 4;

/** From the lowest to the highest mark of a tape: slopes and their standard uncertainty. */
function tapeTilt(
  tape: readonly LoggedReading[],
): { readonly right: number; readonly up: number; readonly u: number } | undefined {
  const complete = tape
    .filter(({ right, up }) => right !== undefined && up !== undefined)
    .toSorted((one, other) => one.height - other.height);
  const [low, high] = [complete[0], complete.at(-1)];
  if (!low || !high || high.height === low.height) return undefined;
  const run = high.height - low.height;
  // A beam is straight: marks off the line through the lowest and the highest one show that the tape was moved.
  const isCrooked = complete.some((reading) =>
    (['right', 'up'] as const).some(
      (part) =>
        Math.abs(reading[part]! - low[part]! - ((high[part]! - low[part]!) * (reading.height - low.height)) / run) >
        STRAIGHT * reading.u,
    ),
  );
  if (isCrooked) return undefined;
  return {
    right: (high.right! - low.right!) / run,
    up: (high.up! - low.up!) / run,
    u: Math.hypot(low.u, high.u) / run,
  };
}
