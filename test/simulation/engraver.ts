/**
 * One machine on the bench: it is turned, shifted and shot, and shows marks; the true positions stay hidden from the
 * technician. It counts the technician's work: screws turned, parts shifted, marks requested.
 */
import type { Carriages, Layout, Vector } from '../../src/optics/index.ts';
import type { Mark, Workshop } from './workshop.ts';
import {
  APERTURES,
  layoutOf,
  marksOf,
  withBed,
  withShift,
  withTilt,
  withTurn,
  type Plan,
  type Truth,
} from './world.ts';

/** The place of a piece of tape: the carriages' legs, mm; for a tape on the bed its distance below the lens, mm. */
export interface TapePlace {
  readonly carriages: Carriages;
  readonly height?: number | undefined;
}

export interface Shot {
  /** The mark on the tape; null where the beam missed it. */
  readonly there: Mark | null;
  readonly read: Mark | null;
}

export class Engraver {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly #workshop: Workshop;
  /** Mirrors whose nuts are loose; at first all are tight. */
  readonly #loose = new Set<number>();
  truth: Truth;
  /** Each screw turned and each part shifted is one. */
  adjustments = 0;
  /** Each requested mark counts, with or without a beam. */
  shots = 0;

  constructor(plan: Plan, start: Truth, workshop: Workshop) {
    this.plan = plan;
    this.layout = layoutOf(plan);
    this.truth = start;
    this.#workshop = workshop;
  }

  /** @param turns positive = in, as intended; a tight nut holds the screw */
  turn(mirror: number, screw: string, turns: number): void {
    this.adjustments += 1;
    if (this.#workshop.lockTilt && !this.#loose.has(mirror)) return;
    this.truth = withTurn(this.truth, mirror, screw, this.#workshop.turned(turns, `${mirror} ${screw}`));
  }

  /**
   * Locks or loosens all nuts of one mirror, which tilts it; no effect if they are already in that state or the mount
   * has none.
   */
  lock(mirror: number, to: 'loose' | 'tight'): void {
    if (!this.#workshop.lockTilt || this.#loose.has(mirror) === (to === 'loose')) return;
    if (to === 'loose') this.#loose.add(mirror);
    else this.#loose.delete(mirror);
    const { right, up } = this.#workshop.lockTilt();
    this.truth = withTilt(this.truth, this.plan, mirror, right, up);
  }

  /** @param by mm, machine axes, as intended */
  shift(part: number | 'tube', by: Vector): void {
    this.truth = withShift(this.truth, this.layout, part, by, this.#workshop.slipped());
    this.adjustments += 1;
  }

  /**
   * One visit to a station: the reading of each tape, null without a mark. A tape on the bed stays in place until the
   * carriages move.
   */
  shoot(station: number, places: readonly TapePlace[]): (Mark | null)[] {
    return this.fire(station, places).map(({ read }) => read);
  }

  /** The same, each with the true mark. */
  fire(station: number, places: readonly TapePlace[]): Shot[] {
    const laid = new Map<string, Mark>();
    return places.map(({ carriages, height }) => {
      this.shots += 1;
      const mark = this.#shown(station, { carriages, height });
      const where = JSON.stringify(carriages);
      if (height !== undefined) laid.set(where, laid.get(where) ?? this.#workshop.laid());
      const middle = (height === undefined ? undefined : laid.get(where)) ?? { right: 0, up: 0 };
      const there = mark && { right: mark.right - middle.right, up: mark.up - middle.up };
      return { there, read: there && this.#workshop.read(there) };
    });
  }

  #shown(station: number, { carriages, height }: TapePlace): Mark | null {
    const truth = this.#workshop.fired(this.truth);
    const marks = marksOf(this.layout, truth, carriages);
    const reach = this.#workshop.tapeReach;
    const within = (mark: Mark | null, more: number, index: number) =>
      mark !== null && Math.hypot(mark.right, mark.up) <= APERTURES[index]! / 2 + more;
    const apertures = marks.slice(0, height === undefined ? station : station + 1);
    if (reach !== undefined && !apertures.every((mark, index) => within(mark, 0, index))) return null;
    if (height !== undefined) return marksOf(withBed(this.layout, height), truth, carriages).at(-1)!;
    const mark = marks[station]!;
    return reach === undefined || within(mark, reach, station) ? mark : null;
  }
}
