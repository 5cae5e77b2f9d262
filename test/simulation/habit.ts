/**
 * The manual method, without the tool: station by station, one screw a little at a time, one shot after each turn.
 *
 * This technician has the best knowledge that experience can give: which screw moves the marks the required way, what a
 * shift of the tube does at every station, and where a missing mark went. The plumb of the last leg is not checked.
 * Axes and units as in the world.
 */
import type { Carriages } from '../../src/optics/index.ts';
import type { Engraver } from './engraver.ts';
import { LIMITS } from './limits.ts';
import type { Mark } from './workshop.ts';
import { acrossBeam, LEGS, marksOf, mountOf, withTurn, type Truth } from './world.ts';

/** An eighth of an inch at the rim of a knob of 14 mm, in turns. */
const FIRST_TURN = 3.175 / (Math.PI * 14);
const MOST_ADJUSTMENTS = 120;

const corner = (gantry: 'near' | 'far', head: 'near' | 'far'): Carriages => ({
  M2: LEGS.M2[gantry],
  M3: LEGS.M3[head],
});

interface Stage {
  readonly station: number;
  /** One place, or two whose marks are to coincide. */
  readonly places: readonly [Carriages] | readonly [Carriages, Carriages];
}

const STAGES: readonly Stage[] = [
  { station: 0, places: [corner('near', 'near')] },
  { station: 1, places: [corner('near', 'near'), corner('far', 'near')] },
  { station: 2, places: [corner('near', 'near'), corner('far', 'far')] },
  { station: 2, places: [corner('near', 'far'), corner('far', 'near')] },
  { station: 3, places: [corner('near', 'near')] },
];
const LENS = 3;

/** The present step of a screw, and the side of zero on which the marks were when it was last turned. */
interface Stride {
  readonly turns: number;
  readonly side: number;
}

/**
 * @returns true if the last stage ended, so that the technician takes every station to be within; false if the work was
 * abandoned
 */
export function workByHabit(engraver: Engraver): boolean {
  const strides = new Map<string, Stride>();
  let reached = 0;
  while (reached < STAGES.length) {
    if (engraver.adjustments >= MOST_ADJUSTMENTS) return false;
    reached = next(reached);
  }
  return true;

  /** Shoots once, adjusts at most once, and returns the stage to continue with. */
  function next(stage: number): number {
    const { station, places } = STAGES[stage]!;
    const { centre, spread = Infinity } = LIMITS[station]!;
    const marks = engraver
      .shoot(
        station,
        places.map((carriages) => ({ carriages })),
      )
      .map((mark, k) => mark ?? markAt(engraver.truth, station, places[k]!));
    const outside = marks.some((mark) => Math.hypot(mark.right, mark.up) > centre);
    if (station === LENS) {
      if (outside) turnScrew(STAGES[stage]!, marks);
      return outside ? stage : stage + 1;
    }
    if (separation(marks) > spread) {
      turnScrew(STAGES[stage]!, marks);
      return STAGES.findIndex((one) => one.station === station);
    }
    if (outside) shiftTube(station, marks);
    return outside ? 0 : stage + 1;
  }

  /**
   * Turns the screw of the preceding mirror that moves the worse axis with the least effect on the other, towards zero.
   * The step is halved after each crossing of zero.
   */
  function turnScrew({ station, places }: Stage, marks: readonly Mark[]): void {
    const mirror = station - 1;
    const measured = difference(marks);
    const axis = Math.abs(measured.right) >= Math.abs(measured.up) ? 'right' : 'up';
    const now = (truth: Truth) => difference(places.map((carriages) => markAt(truth, station, carriages)));
    const before = now(engraver.truth);
    const effects = mountOf(engraver.plan).screws.map(({ name }) => {
      const after = now(withTurn(engraver.truth, mirror, name, FIRST_TURN));
      const [right, up] = [after.right - before.right, after.up - before.up];
      const along = axis === 'right' ? right : up;
      return { name, along, purity: Math.abs(along) / Math.hypot(right, up) };
    });
    const best = effects.reduce((most, effect) => (effect.purity > most.purity ? effect : most));
    const key = `${mirror} ${best.name}`;
    const side = Math.sign(measured[axis]);
    const last = strides.get(key);
    const turns = last === undefined ? FIRST_TURN : last.side === side ? last.turns : last.turns / 2;
    strides.set(key, { turns, side });
    engraver.turn(mirror, best.name, -side * Math.sign(best.along) * turns);
  }

  /** Shifts the tube by minus the mean of the marks, transformed back through the layout to the tube. */
  function shiftTube(station: number, marks: readonly Mark[]): void {
    const { truth } = engraver;
    const here = (measured: Truth) => markAt(measured, station, corner('near', 'near'));
    const effect = (axis: 'right' | 'up') =>
      difference([here(truth), here({ ...truth, tube: { ...truth.tube, [axis]: truth.tube[axis] + 1 } })]);
    const [r, u] = [effect('right'), effect('up')];
    const target = { right: -mean(marks, 'right'), up: -mean(marks, 'up') };
    const determinant = r.right * u.up - u.right * r.up;
    const by = {
      right: (target.right * u.up - u.right * target.up) / determinant,
      up: (r.right * target.up - target.right * r.up) / determinant,
    };
    engraver.shift('tube', acrossBeam(engraver.plan.fires, by));
  }

  function markAt(truth: Truth, station: number, carriages: Carriages): Mark {
    const mark = marksOf(engraver.layout, truth, carriages)[station];
    if (!mark) throw new Error('no tape, however large, would show this beam');
    return mark;
  }
}

/** Far minus near; for a single mark, its position. */
function difference([first, second]: readonly Mark[]): Mark {
  return second ? { right: second.right - first!.right, up: second.up - first!.up } : first!;
}

function separation(marks: readonly Mark[]): number {
  const { right, up } = difference(marks);
  return marks.length > 1 ? Math.hypot(right, up) : 0;
}

function mean(marks: readonly Mark[], axis: 'right' | 'up'): number {
  return marks.reduce((sum, mark) => sum + mark[axis], 0) / marks.length;
}
