/** What is wrong with a machine of the highest level, beyond being out of alignment: drawn from the seed. */
import type { Draws } from './draw.ts';

/**
 * A fault of the machine: the first mirror is `loose`, the rail of the first carriage is `bowed`, or the mounts are
 * `described` the wrong way round. Or a slip in the log that somebody began: a turn logged in the wrong `sense`, a tape
 * read from behind (`mirrored`), near and far `exchanged`.
 */
export type Fault = (typeof FAULTS)[number];

const FAULTS = ['loose', 'bowed', 'described', 'sense', 'mirrored', 'exchanged'] as const;

export function faultOf(draw: Draws): Fault {
  return draw.choose(FAULTS, 'fault');
}

/** mm by which a bowed rail sags in the middle: more than any limit allows. */
export const SAG = 5;
/** Standard deviation of the slope of a loose mirror from shot to shot, either axis. */
export const LOOSE = 0.0012;

/** The initials of the one who began the log of a machine of the highest level. */
export const COLLEAGUE = 'rw';

/** What the colleague turned on the first mirror, whatever the log says of it. Turns, positive = in. */
export interface ColleaguesTurn {
  /** Index of the screw in its mount. */
  readonly screw: number;
  readonly turns: number;
}

export function colleaguesTurn(draw: Draws): ColleaguesTurn {
  return {
    screw: draw.choose([0, 1], 'colleague', 'screw'),
    turns: draw.choose([-1, 1], 'colleague', 'sense') * 0.25,
  };
}
