/**
 * Someone who does exactly what the workbook tool says: shoots what it asks for, turns what it says, and writes both
 * down, until it says `within`, `blocked`, or has been going on for too long.
 */
import { evaluate, threads } from '../../src/alignment/index.ts';
import { createReader, expressions, settle } from '../../src/workbook/index.ts';
import type { Direction, Evaluation, ShotRequest, Step } from '../../src/model/index.ts';
import { layoutOf, LEGS, machineCells, marksOf, withShift, withTurn, type Plan, type Truth } from './world.ts';

export interface Session {
  readonly text: string;
  readonly truth: Truth;
  readonly last: Evaluation;
  /** Rounds of advice that moved something, by the station they were for. */
  readonly rounds: Readonly<Record<string, number>>;
  readonly adjustments: number;
  readonly shots: number;
}

/** How a mark is read, how a hand turns and shifts; identity in an ideal world. */
export interface Hands {
  mark(mark: { right: number; up: number }): { right: number; up: number };
  turn(turns: number): number;
}

export const IDEAL: Hands = { mark: (mark) => mark, turn: (turns) => turns };

const MOST_ROUNDS = 40;

export function work(plan: Plan, start: Truth, limits: string, hands: Hands = IDEAL): Session {
  const layout = layoutOf(plan);
  const reader = createReader({ threads, expressions });
  const rounds: Record<string, number> = {};
  let text = `${machineCells(plan, limits)}\n---\nsession: trial\n`;
  let truth = start;
  let adjustments = 0;
  let shots = 0;
  for (let round = 0; ; round++) {
    const workbook = reader.read(text, { file: 'trial.alignbook.yaml', files: new Map() });
    const last = evaluate(workbook.entries);
    const wrong = settle(workbook, last.findings).filter(({ code }) => !/^(log|mark\.outside)/.test(code));
    if (wrong.length > 0) throw new Error(`the tool's own cells are found wrong: ${JSON.stringify(wrong)}\n${text}`);
    if (last.verdict !== 'continue' || round === MOST_ROUNDS) return { text, truth, last, rounds, adjustments, shots };
    const moved = last.steps.some(({ kind }) => kind === 'turn' || kind === 'shift');
    const target = last.stations.find(({ requirements, state }) => requirements.length > 0 && state !== 'within');
    if (moved && target) rounds[target.name] = (rounds[target.name] ?? 0) + 1;
    for (const step of last.steps) {
      truth = done(step);
      text += `---\n${step.kind === 'shoot' ? shotCell(step) : step.cell}`;
      adjustments += step.kind === 'turn' || step.kind === 'shift' ? 1 : 0;
      if (step.kind === 'shoot') break;
    }
  }

  function done(step: Step): Truth {
    const element = (name: string) => layout.elements.findIndex((candidate) => candidate.name === name);
    if (step.kind === 'turn') return withTurn(truth, element(step.part), step.screw, hands.turn(step.turns));
    if (step.kind === 'shift') return withShift(truth, layout, step.part === 'tube' ? 'tube' : element(step.part), step.by);
    return truth;
  }

  /** The marks cell as the tool wrote it, its blanks filled in. */
  function shotCell(step: Extract<Step, { kind: 'shoot' }>): string {
    const marks = step.shots.map((shot) => markText(step.station, shot));
    shots += marks.length;
    return step.cell!.split('\n').map((line) => (/: $|mark: \}$/.test(line) ? line.replace(/: (\}?)$/, (_, close: string) => `: ${marks.shift()}${close}`) : line)).join('\n');
  }

  function markText(station: string, shot: ShotRequest): string {
    const index = layout.elements.findIndex(({ name }) => name === station);
    const leg = (name: 'M2' | 'M3') => {
      const at = station === name ? shot.at : shot.with?.[name];
      return typeof at === 'number' ? at : at === 'far' ? LEGS[name].far : LEGS[name].near;
    };
    const mark = marksOf(layout, truth, { M2: leg('M2'), M3: leg('M3') })[index];
    return mark ? inWords(hands.mark(mark), index === 0 ? plan.fires : plan.sends[index - 1]!, plan.units) : 'none';
  }
}

/** A mark as a technician writes it, in the words of its leg. */
export function inWords(mark: { right: number; up: number }, runs: Direction, units: Plan['units']): string {
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
