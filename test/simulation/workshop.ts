/**
 * The errors of reading, hand work and tape. `IDEAL` has none; `ordinary` is a careful technician with a rule. Marks in
 * the viewer's frame, mm; turns positive = in.
 */
import type { Random } from './random.ts';
import { NO_SLIP, type Slip, type Truth } from './world.ts';

export interface Mark {
  readonly right: number;
  readonly up: number;
}

export interface Workshop {
  /**
   * How far outside its aperture a tape still shows a mark, mm; absent: unlimited tape, and no aperture stops a beam.
   */
  readonly tapeReach?: number;
  /** A mark as it is read. */
  read(mark: Mark): Mark;
  /** The true turn of a screw for an intended turn. @param screw index over the whole machine */
  turned(turns: number, screw: string): number;
  /** The error of a shift. */
  slipped(): Slip;
  /** Offset of the middle of a tape on the bed from the nominal beam, mm. */
  laid(): Mark;
  /** The state of the machine during one shot. */
  fired(truth: Truth): Truth;
  /** Tilt of a mirror when its nuts are locked or loosened, slopes on its plate; absent: no nuts. */
  lockTilt?(): Mark;
}

export const IDEAL: Workshop = {
  read: (mark) => mark,
  turned: (turns) => turns,
  slipped: () => NO_SLIP,
  laid: () => ({ right: 0, up: 0 }),
  fired: (truth) => truth,
};

/** mm past the rim: tape is not cut to size. */
const TAPE_REACH = 3;
/** mm: the step of the rule, and the standard deviation of setting the tape and finding the middle of a burn. */
export const READING = { step: 0.5, noise: 0.25 } as const;
/** Standard deviations: turns; mm and slope of a shift; mm of a tape put on the bed. */
const TURN = 0.01;
const SHIFT = 0.25;
const SHIFT_ANGLE = 0.0005;
const BED = 3;

/** @param noise standard deviation of a mark's coordinate before rounding to the step, mm */
export function ordinary(draw: Random, noise: number = READING.noise): Workshop {
  const aboutBy = (deviation: number): Mark => ({ right: deviation * draw.normal(), up: deviation * draw.normal() });
  const toStep = (length: number) => READING.step * Math.round(length / READING.step);
  return {
    tapeReach: TAPE_REACH,
    read(mark) {
      const off = aboutBy(noise);
      return { right: toStep(mark.right + off.right), up: toStep(mark.up + off.up) };
    },
    turned: (turns) => turns + TURN * draw.normal(),
    slipped() {
      const turn = aboutBy(SHIFT_ANGLE);
      return { ...aboutBy(SHIFT), turnRight: turn.right, turnUp: turn.up };
    },
    laid: () => aboutBy(BED),
    fired: (truth) => truth,
  };
}
