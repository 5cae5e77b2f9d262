/**
 * A machine of the drawn world and its technician's log: moves are logged as intended, marks as read. mm, slopes, turns
 * (positive = in).
 */
import { Vector3 } from 'three';
import { PRIORS, type LogEntry, type PriorName, type Step } from '../../src/model/index.ts';
import { turnEffect } from '../../src/optics/index.ts';
import { drawnMachine, markOf, shiftBlock, shiftTube, turn, type Drawn, type Priors } from './drawn.ts';
import type { Random } from './random.ts';
import type { Mark } from './workshop.ts';
import { layoutOf, LEGS, machineCells, mountOf, type Plan } from './world.ts';
import { reader } from '../support/log.ts';

/** Everything is nominal, and hand work and reading have no error. */
const EXACT: Random = { uniform: () => 0.5, normal: () => 0, choose: ([first]) => first! };

type End = 'near' | 'far';
const ENDS: readonly End[] = ['near', 'far'];

/** Standard uncertainty of a mark: read to half a millimetre on a tape that is set to 0.2 mm. */
const READING = Math.hypot(0.5 / Math.sqrt(12), 0.2);

export class Logged {
  readonly machine: Drawn;
  readonly #names: readonly string[];
  readonly #draw: Random;
  readonly #cells: string[];

  /**
   * @param fault the fault of this machine, in addition to the drawn errors
   * @param priors lengths and angles that replace the tool's own priors, in the workbook and in the draws
   */
  constructor(
    plan: Plan,
    limits: string,
    {
      fault = {},
      priors = {},
      draw = EXACT,
    }: { readonly fault?: Partial<Drawn>; readonly priors?: Priors; readonly draw?: Random } = {},
  ) {
    const mount = mountOf(plan);
    const effects = Object.fromEntries(mount.screws.map(({ name }) => [name, turnEffect(mount, name)]));
    const said = Object.entries(priors).map(
      ([name, value]) =>
        `${name}: ${PRIORS[name as PriorName].dimension === 'angle' ? `${1000 * value} mrad` : `${value} mm`}`,
    );
    this.machine = { ...drawnMachine(draw, plan, effects, plan.doubt / 100, priors), ...fault };
    this.#names = layoutOf(plan).elements.map(({ name }) => name);
    this.#draw = draw;
    this.#cells = [machineCells(plan, limits).replace(/^mounts:/m, `priors: {${said.join(', ')}}\nmounts:`)];
  }

  get entries(): readonly LogEntry[] {
    return reader.read(this.#cells.join('---\n'), {
      file: 'logged.alignbook.yaml',
      files: new Map(),
    }).entries;
  }

  turn(mirror: number, screw: string, turns: number): this {
    turn(this.machine, this.#draw, mirror, screw, turns);
    this.#cells.push(
      `adjust: ${this.#names[mirror]}\nturn: {${screw}: ${turns > 0 ? 'in' : 'out'} ${Math.abs(turns)} turn}\n`,
    );
    return this;
  }

  /** A turn or a shift as advised. */
  do(step: Step): this {
    if (step.kind === 'turn') return this.turn(this.#names.indexOf(step.part), step.screw, step.turns);
    if (step.kind !== 'shift') return this;
    const by = new Vector3(...step.by);
    if (step.part === 'tube') shiftTube(this.machine, this.#draw, by);
    else shiftBlock(this.machine, this.#draw, this.#names.indexOf(step.part), by);
    this.#cells.push(step.cell!);
    return this;
  }

  /** Every corner that the carriages can take, at the stations named by their indices. */
  shoot(...stations: readonly number[]): this {
    for (const station of stations) {
      const shots = cornersOf(station).map(({ gantry, head }) => {
        const { right, up } = this.mark(station, gantry, head);
        const others = [...(station > 1 ? [`M2: ${gantry}`] : []), ...(station > 2 ? [`M3: ${head}`] : [])];
        const read = (part: number) => (part + READING * this.#draw.normal()).toFixed(3);
        return `  - {at: ${['here', gantry, head, 'here'][station]}, with: {${others.join(', ')}}, mark: {right: ${read(right)} mm, up: ${read(up)} mm}}\n`;
      });
      this.#cells.push(`marks: ${this.#names[station]}\nshots:\n${shots.join('')}`);
    }
    return this;
  }

  /** The middle of the station's own travel, the other carriage at its nearest. */
  middles(...stations: readonly (1 | 2)[]): this {
    for (const station of stations) {
      const carriages = {
        M2: station === 1 ? middleOf(LEGS.M2) : LEGS.M2.near,
        M3: station === 2 ? middleOf(LEGS.M3) : LEGS.M3.near,
      };
      const { right, up } = markOf(this.machine, carriages, station)!;
      const read = (part: number) => (part + READING * this.#draw.normal()).toFixed(3);
      this.#cells.push(
        `marks: ${this.#names[station]}\nshots: [{at: ${station === 1 ? carriages.M2 : carriages.M3} mm, mark: {right: ${read(right)} mm, up: ${read(up)} mm}}]\n`,
      );
    }
    return this;
  }

  mark(station: number, gantry: End, head: End): Mark {
    return markOf(this.machine, { M2: LEGS.M2[gantry], M3: LEGS.M3[head] }, station)!;
  }

  /** Every true mark of a station. */
  marks(station: number): Mark[] {
    return cornersOf(station).map(({ gantry, head }) => this.mark(station, gantry, head));
  }
}

function middleOf({ near, far }: { readonly near: number; readonly far: number }): number {
  return (near + far) / 2;
}

function cornersOf(station: number): { readonly gantry: End; readonly head: End }[] {
  const gantries = station > 0 ? ENDS : (['near'] as const);
  const heads = station > 1 ? ENDS : (['near'] as const);
  return gantries.flatMap((gantry) => heads.map((head) => ({ gantry, head })));
}
