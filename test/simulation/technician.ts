/**
 * Someone who does exactly what the workbook tool says: shoots what it asks for, turns what it says, and writes both
 * down, until it says `within`, `blocked`, or has been going on for too long.
 */
import { evaluate, threads } from '../../src/alignment/index.ts';
import { createReader, expressions, settle } from '../../src/workbook/index.ts';
import type { Direction, Evaluation, LogEntry, ShotRequest, Step } from '../../src/model/index.ts';
import { Engraver, type TapePlace } from './engraver.ts';
import { IDEAL, type Mark, type Workshop } from './workshop.ts';
import { LEGS, machineCells, type Plan, type Truth } from './world.ts';

export interface Session {
  readonly text: string;
  readonly truth: Truth;
  readonly last: Evaluation;
  /** Rounds of advice that moved something, by the station they were for. */
  readonly rounds: Readonly<Record<string, number>>;
  readonly adjustments: number;
  readonly shots: number;
  readonly times: readonly Took[];
}

/** How long one evaluation took, ms: how the stations stand, and what is advised then. */
export interface Took {
  readonly standing: number;
  readonly advice: number;
}

const MOST_ROUNDS = 40;

/** @param asked told of every workbook and what the tool says to it, before it is done */
export function work(plan: Plan, start: Truth, limits: string, workshop: Workshop = IDEAL, asked?: (text: string, told: Evaluation) => void): Session {
  const engraver = new Engraver(plan, start, workshop);
  const { elements } = engraver.layout;
  const reader = createReader({ threads, expressions });
  const rounds: Record<string, number> = {};
  const times: Took[] = [];
  let text = `${machineCells(plan, limits)}\n---\nsession: trial\n`;
  for (let round = 0; ; round++) {
    const workbook = reader.read(text, { file: 'trial.alignbook.yaml', files: new Map() });
    const last = timed(workbook.entries);
    asked?.(text, last);
    const wrong = settle(workbook, last.findings).filter(({ code }) => !/^(log|mark\.outside|fire\.unchecked)/.test(code));
    if (wrong.length > 0) throw new Error(`the tool's own cells are found wrong: ${JSON.stringify(wrong)}\n${text}`);
    if (last.verdict !== 'continue' || round === MOST_ROUNDS) {
      const { truth, adjustments, shots } = engraver;
      return { text, truth, last, rounds, adjustments, shots, times };
    }
    const moved = last.steps.some(({ kind }) => kind === 'turn' || kind === 'shift');
    const target = last.stations.find(({ requirements, state }) => requirements.length > 0 && state !== 'within');
    if (moved && target) rounds[target.name] = (rounds[target.name] ?? 0) + 1;
    for (const step of last.steps) {
      if (step.cell !== undefined) text += `---\n${step.kind === 'shoot' ? shot(step, step.cell) : step.cell}`;
      if (step.kind === 'shoot') break;
      move(step);
    }
  }

  /** Both are worked out when they are asked for. */
  function timed(entries: readonly LogEntry[]): Evaluation {
    const begun = performance.now();
    const told = evaluate(entries);
    void told.stations;
    const known = performance.now();
    void told.verdict;
    times.push({ standing: known - begun, advice: performance.now() - known });
    return told;
  }

  function move(step: Step): void {
    if (step.kind === 'turn') engraver.turn(indexOf(step.part), step.screw, step.turns);
    if (step.kind !== 'shift') return;
    if (step.end !== undefined) throw new Error('the tube of this machine has no holders that could be moved one by one');
    engraver.shift(step.part === 'tube' ? 'tube' : indexOf(step.part), step.by);
  }

  function indexOf(name: string): number {
    return elements.findIndex((element) => element.name === name);
  }

  /** The marks cell as the tool wrote it, its blanks filled in. */
  function shot(step: Extract<Step, { kind: 'shoot' }>, cell: string): string {
    const station = indexOf(step.station);
    const runs = station === 0 ? plan.fires : plan.sends[station - 1]!;
    const marks = engraver.shoot(station, step.shots.map((one) => placeOf(step.station, one))).map((mark) => (mark ? inWords(mark, runs, plan.units) : 'none'));
    const filled = cell.split('\n').map((line) => (/: $|mark: \}$/.test(line) ? line.replace(/: (\}?)$/, (_, close: string) => `: ${marks.shift()}${close}`) : line)).join('\n');
    if (marks.length > 0) throw new Error(`the cell has too few blanks for its shots:\n${cell}`);
    return filled;
  }
}

/** Carriages that are not named stand near. */
function placeOf(station: string, { at, with: others, height }: ShotRequest): TapePlace {
  const leg = (name: 'M2' | 'M3') => {
    const stop = station === name ? at : others?.[name];
    return typeof stop === 'number' ? stop : stop === 'far' ? LEGS[name].far : LEGS[name].near;
  };
  return { carriages: { M2: leg('M2'), M3: leg('M3') }, height };
}

/** A mark as a technician writes it, in the words of its leg. */
export function inWords(mark: Mark, runs: Direction, units: Plan['units']): string {
  const length = (mm: number) => `${Math.abs(units === 'mm' ? mm : mm / 25.4)}`;
  const vertical = runs === 'up' || runs === 'down';
  const [right, left] = vertical ? verticalWords(runs) : ['right', 'left'];
  const [up, down] = vertical ? ['rear', 'front'] : ['up', 'down'];
  return `${length(mark.right)} ${mark.right < 0 ? left : right} ${length(mark.up)} ${mark.up < 0 ? down : up}`;
}

/** Looking down, the viewer's right is the machine's; looking up it is the machine's left. */
function verticalWords(runs: string): [right: string, left: string] {
  return runs === 'down' ? ['right', 'left'] : ['left', 'right'];
}
