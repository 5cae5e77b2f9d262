/** Which marks repeat which: the same place again, and whether the repeat agrees. */
import { grouped, sameCarriages } from '../machine/index.ts';
import { tapeKey } from './innovation.ts';
import type { LoggedReading } from './logged-reading.ts';
import { differ, scatters } from './scatter.ts';
import { tiltsAgree } from './tape-tilt.ts';

export function placeKey({ station, carriages }: LoggedReading): string {
  return `${station} ${JSON.stringify(carriages)}`;
}

/** Coverage factor within which two marks are the same. */
const EQUAL = 2.5;

export function isEqual(one: LoggedReading, other: LoggedReading): boolean {
  const parts = (['right', 'up'] as const).filter((part) => one[part] !== undefined && other[part] !== undefined);
  return (
    parts.length > 0 && parts.every((part) => Math.abs(one[part]! - other[part]!) <= EQUAL * Math.hypot(one.u, other.u))
  );
}

/** Whether a reading repeats the place of an earlier one. A tape on the bed has no fixed position. */
export function repeatsPlace(then: LoggedReading, now: LoggedReading): boolean {
  return then.order < now.order && isSamePlace(then, now);
}

export function isSamePlace(one: LoggedReading, other: LoggedReading): boolean {
  return (
    one.station === other.station &&
    one.height === 0 &&
    other.height === 0 &&
    sameCarriages(one.carriages, other.carriages)
  );
}

/** Whether two tapes were laid on the bed below one station with the carriages in the same place. */
export function repeatsBed(then: LoggedReading, now: LoggedReading): boolean {
  return (
    then.order < now.order &&
    then.station === now.station &&
    then.height > 0 &&
    now.height > 0 &&
    sameCarriages(then.carriages, now.carriages)
  );
}

/**
 * Whether a repeat confirms marks that were set aside: a mark in the same place on its own tape, tapes on the bed with
 * the same tilt.
 */
export function isConfirmed(then: readonly LoggedReading[], now: readonly LoggedReading[]): boolean {
  if (
    then.some((reading) =>
      now.some((other) => repeatsPlace(reading, other) && !differ(reading, other) && !scatters(other)),
    )
  )
    return true;
  const [before, after] = [then, now].map((some) =>
    grouped(
      some.filter(({ height }) => height > 0),
      tapeKey,
    ),
  );
  return before!.some((tape) => after!.some((other) => repeatsBed(tape[0]!, other[0]!) && tiltsAgree(tape, other)));
}
