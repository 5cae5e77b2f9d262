/**
 * A machine with one fault and a technician whose hand and eye are exact: what happens to it is written down as a log. Its
 * rays are those of the simulated world, which knows nothing of the product's. mm, slopes, turns (positive = in).
 */
import { turnEffect } from '../../src/optics/index.ts';
import type { Evaluation } from '../../src/model/index.ts';
import { drawnMachine, markOf, turn, type Drawn } from '../simulation/drawn.ts';
import type { Random } from '../simulation/random.ts';
import { layoutOf, LEGS, machineCells, mountOf, type Plan } from '../simulation/world.ts';
import { evaluated, LIMITS } from './log.ts';

const EXACT: Random = { uniform: () => 0.5, normal: () => 0, choose: ([first]) => first! };

export const PLAN: Plan = { fires: 'left', sends: ['front', 'right', 'down'], mount: 'three screws', in: 1, heads: 'behind', places: 'given', units: 'mm', doubt: 20 };

type End = 'near' | 'far';

export class Faulty {
  readonly machine: Drawn;
  readonly #cells: string[];

  /** @param priors what the workbook says of this machine's priors: `tubeOffset: 0.3 mm` */
  constructor(plan: Plan, fault: Partial<Drawn>, priors = '') {
    const effects = Object.fromEntries(mountOf(plan).screws.map(({ name }) => [name, turnEffect(mountOf(plan), name)]));
    this.machine = { ...drawnMachine(EXACT, plan, effects, 0), ...fault };
    this.#cells = [machineCells(plan, LIMITS).replace(/^mounts:/m, `priors: {${priors}}\nmounts:`)];
  }

  turn(mirror: number, screw: string, turns: number): this {
    turn(this.machine, EXACT, mirror, screw, turns);
    this.#cells.push(`adjust: ${this.name(mirror)}\nturn: {${screw}: ${turns > 0 ? 'in' : 'out'} ${Math.abs(turns)} turn}\n`);
    return this;
  }

  /** Every corner that the carriages can take, at the stations named by their indices. */
  shoot(...stations: readonly number[]): this {
    for (const station of stations) {
      const shots = corners(station).map(({ gantry, head }) => {
        const { right, up } = this.mark(station, gantry, head);
        const others = { ...(station > 1 && { M2: gantry }), ...(station > 2 && { M3: head }) };
        const at = station === 1 ? gantry : station === 2 ? head : 'here';
        return `  - {at: ${at}, with: ${JSON.stringify(others).replaceAll('"', '').replaceAll(':', ': ')}, mark: {right: ${right.toFixed(3)}, up: ${up.toFixed(3)}}}`;
      });
      this.#cells.push(`marks: ${this.name(station)}\nshots:\n${shots.join('\n')}\n`);
    }
    return this;
  }

  mark(station: number, gantry: End, head: End): { right: number; up: number } {
    return markOf(this.machine, { M2: LEGS.M2[gantry], M3: LEGS.M3[head] }, station)!;
  }

  told(): Evaluation {
    return evaluated(...this.#cells);
  }

  private name(element: number): string {
    return layoutOf(PLAN).elements[element]!.name;
  }
}

function corners(station: number): { gantry: End; head: End }[] {
  const gantries: End[] = station > 0 ? ['near', 'far'] : ['near'];
  const heads: End[] = station > 1 ? ['near', 'far'] : ['near'];
  return gantries.flatMap((gantry) => heads.map((head) => ({ gantry, head })));
}
