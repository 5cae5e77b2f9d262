/**
 * One machine on the bench: it is turned, shifted and shot, and shows marks; where things really stand stays hidden
 * from whoever works on it. It counts what a technician does: screws turned, parts shifted, marks asked for.
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

/** Where a piece of tape is: the carriages' legs, mm; how far below the lens where it lies on the bed, mm. */
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
  /** Each mark asked for is one, whether the beam came or not. */
  shots = 0;

  constructor(plan: Plan, start: Truth, workshop: Workshop) {
    this.plan = plan;
    this.layout = layoutOf(plan);
    this.truth = start;
    this.#workshop = workshop;
  }

  /** @param turns positive = in, as they were meant; a nut that is tight holds the screw */
  turn(mirror: number, screw: string, turns: number): void {
    this.adjustments += 1;
    if (this.#workshop.lockTilt && !this.#loose.has(mirror)) return;
    this.truth = withTurn(this.truth, mirror, screw, this.#workshop.turned(turns, `${mirror} ${screw}`));
  }

  /** All nuts of one mirror, which tilts it; nothing where they are so already, or where there are none. */
  lock(mirror: number, to: 'loose' | 'tight'): void {
    if (!this.#workshop.lockTilt || this.#loose.has(mirror) === (to === 'loose')) return;
    if (to === 'loose') this.#loose.add(mirror);
    else this.#loose.delete(mirror);
    const { right, up } = this.#workshop.lockTilt();
    this.truth = withTilt(this.truth, this.plan, mirror, right, up);
  }

  /** @param by mm, machine axes, as it was meant */
  shift(part: number | 'tube', by: Vector): void {
    this.truth = withShift(this.truth, this.layout, part, by, this.#workshop.slipped());
    this.adjustments += 1;
  }

  /**
   * One visit to a station: what is read on each tape, null where there is no mark. A tape on the bed stays while the
   * carriages do.
   */
  shoot(station: number, places: readonly TapePlace[]): (Mark | null)[] {
    return this.fire(station, places).map(({ read }) => read);
  }

  /** The same, each beside the mark that was there to be read. */
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
    const holes = marks.slice(0, height === undefined ? station : station + 1);
    if (reach !== undefined && !holes.every((mark, index) => within(mark, 0, index))) return null;
    if (height !== undefined) return marksOf(withBed(this.layout, height), truth, carriages).at(-1)!;
    const mark = marks[station]!;
    return reach === undefined || within(mark, reach, station) ? mark : null;
  }
}
