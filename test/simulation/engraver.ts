/**
 * One machine on the bench: it is turned, shifted and shot, and shows marks; where things really stand stays hidden from
 * whoever works on it. It counts what a technician does: screws turned, parts shifted, marks asked for.
 */
import type { Carriages, Layout, Vector } from '../../src/optics/index.ts';
import type { Mark, Workshop } from './workshop.ts';
import { APERTURES, layoutOf, marksOf, withBed, withShift, withTurn, type Plan, type Truth } from './world.ts';

/** Where a piece of tape is: the carriages' legs, mm; how far below the lens where it lies on the bed, mm. */
export interface TapePlace {
  readonly carriages: Carriages;
  readonly height?: number | undefined;
}

export class Engraver {
  readonly plan: Plan;
  readonly layout: Layout;
  readonly #workshop: Workshop;
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

  /** @param turns positive = in, as they were meant */
  turn(mirror: number, screw: string, turns: number): void {
    this.truth = withTurn(this.truth, mirror, screw, this.#workshop.turned(turns));
    this.adjustments += 1;
  }

  /** @param by mm, machine axes, as it was meant */
  shift(part: number | 'tube', by: Vector): void {
    this.truth = withShift(this.truth, this.layout, part, by, this.#workshop.slipped());
    this.adjustments += 1;
  }

  /** One visit to a station: what is read on each tape, null where there is no mark. A tape on the bed stays while the carriages do. */
  shoot(station: number, places: readonly TapePlace[]): (Mark | null)[] {
    const laid = new Map<string, Mark>();
    return places.map(({ carriages, height }) => {
      this.shots += 1;
      const mark = this.#shown(station, { carriages, height });
      if (height === undefined) return mark && this.#workshop.read(mark);
      const where = JSON.stringify(carriages);
      const middle = laid.get(where) ?? this.#workshop.laid();
      laid.set(where, middle);
      return mark && this.#workshop.read({ right: mark.right - middle.right, up: mark.up - middle.up });
    });
  }

  #shown(station: number, { carriages, height }: TapePlace): Mark | null {
    const marks = marksOf(this.layout, this.truth, carriages);
    const reach = this.#workshop.tapeReach;
    const within = (mark: Mark | null, more: number, index: number) => mark !== null && Math.hypot(mark.right, mark.up) <= APERTURES[index]! / 2 + more;
    const holes = marks.slice(0, height === undefined ? station : station + 1);
    if (reach !== undefined && !holes.every((mark, index) => within(mark, 0, index))) return null;
    if (height !== undefined) return marksOf(withBed(this.layout, height), this.truth, carriages).at(-1)!;
    const mark = marks[station]!;
    return reach === undefined || within(mark, reach, station) ? mark : null;
  }
}
