/**
 * A technician who follows the tool's advice exactly: shoots, turns, locks and loosens as advised, and logs each step,
 * until the verdict is `within` or `blocked`, or the rounds run out. Every check by hand has a good result.
 */
import { evaluate } from '../../src/evaluation/index.ts';
import { threads } from '../../src/machine/index.ts';
import { createReader, expressions, visibleFindings } from '../../src/workbook/index.ts';
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
  /** In order; the last is the final evaluation, whose steps were not carried out. */
  readonly log: readonly Round[];
  readonly adjustments: number;
  readonly shots: number;
  readonly times: readonly Took[];
}

type Shoot = Extract<Step, { kind: 'shoot' }>;

/** One evaluation, the steps of it that were done, and the marks that were shot. */
export interface Round {
  readonly evaluation: Evaluation;
  readonly done: readonly Step[];
  readonly marks: readonly ShotMark[];
}

export interface ShotMark {
  readonly station: string;
  readonly place: TapePlace;
  /** The reading; null if there was no mark. */
  readonly mark: Mark | null;
  /** Distance of the reading from the true mark, mm. */
  readonly misread: number;
}

/** Equal for marks that were shot at one place: only carriages that move the station count. */
export function placeKey(station: string, { carriages: { M2: gantry, M3: head }, height }: TapePlace): string {
  const legs = station === 'M1' ? [] : station === 'M2' ? [gantry] : [gantry, head];
  return JSON.stringify([station, legs, height]);
}

/** Duration of one evaluation, ms: of the state of the stations, and of the advice. */
export interface Took {
  readonly verdict: number;
  readonly advice: number;
}

const MOST_ROUNDS = 40;

/** Findings about the machine or the work; any other finding is an error in a cell that the tool wrote. */
const OF_THE_MACHINE = /^(log|mount|limits|power)\.|^mark\.(outside|double|crescent|growth)$|^fire\.unchecked$/;

/** @param onRound called with every workbook and the tool's answer before the steps are carried out */
export function work(
  plan: Plan,
  start: Truth,
  limits: string,
  workshop: Workshop = IDEAL,
  onRound?: (text: string, evaluation: Evaluation) => void,
): Session {
  const engraver = new Engraver(plan, start, workshop);
  const { elements } = engraver.layout;
  const reader = createReader({ threads, expressions });
  const rounds: Record<string, number> = {};
  const times: Took[] = [];
  const log: Round[] = [];
  let text = `${machineCells(plan, limits)}\n---\nsession: trial\n`;
  for (let round = 0; ; round++) {
    const workbook = reader.read(text, { file: 'trial.alignbook.yaml', files: new Map() });
    const last = timed(workbook.entries);
    onRound?.(text, last);
    const wrong = visibleFindings(workbook, last.findings).filter(({ code }) => !OF_THE_MACHINE.test(code));
    if (wrong.length > 0) throw new Error(`the tool's own cells are found wrong: ${JSON.stringify(wrong)}\n${text}`);
    if (last.verdict !== 'continue' || round === MOST_ROUNDS) {
      const { truth, adjustments, shots } = engraver;
      return {
        text,
        truth,
        last,
        rounds,
        log: [...log, { evaluation: last, done: [], marks: [] }],
        adjustments,
        shots,
        times,
      };
    }
    const moved = last.steps.some(({ kind }) => kind === 'turn' || kind === 'shift');
    const target = last.stations.find(({ requirements, state }) => requirements.length > 0 && state !== 'within');
    if (moved && target) rounds[target.name] = (rounds[target.name] ?? 0) + 1;
    const upToShot = last.steps.findIndex(({ kind }) => kind === 'shoot') + 1;
    const done = last.steps.slice(0, upToShot > 0 ? upToShot : last.steps.length);
    let marks: readonly ShotMark[] = [];
    for (const step of done) {
      if (step.kind === 'shoot') marks = shoot(step);
      const cell = step.kind === 'shoot' ? filled(step, marks) : step.cell;
      if (cell !== undefined) text += `---\n${cell}`;
      if (step.kind !== 'shoot') obey(step);
    }
    log.push({ evaluation: last, done, marks });
  }

  /** Both are computed on access. */
  function timed(entries: readonly LogEntry[]): Evaluation {
    const begun = performance.now();
    const evaluation = evaluate(entries);
    void evaluation.stations;
    const known = performance.now();
    void evaluation.verdict;
    times.push({ verdict: known - begun, advice: performance.now() - known });
    return evaluation;
  }

  function obey(step: Exclude<Step, Shoot>): void {
    switch (step.kind) {
      case 'turn':
        return engraver.turn(indexOf(step.part), step.screw, step.turns);
      case 'lock':
        return engraver.lock(indexOf(step.part), step.to);
      case 'shift':
        if (step.end !== undefined)
          throw new Error('the tube of this machine has no holders that could be moved one by one');
        return engraver.shift(step.part === 'tube' ? 'tube' : indexOf(step.part), step.by);
      // These leave this machine as it is.
      case 'check':
      case 'repair':
      case 'care':
      case 'release':
        return;
    }
  }

  function indexOf(name: string): number {
    return elements.findIndex((element) => element.name === name);
  }

  function shoot({ station, shots }: Shoot): readonly ShotMark[] {
    const places = shots.map((one) => placeOf(station, one));
    return engraver.fire(indexOf(station), places).map(({ there, read }, k) => ({
      station,
      place: places[k]!,
      mark: read,
      misread: there && read ? Math.hypot(read.right - there.right, read.up - there.up) : 0,
    }));
  }

  /** The marks cell as the tool wrote it, its blanks filled in. */
  function filled({ station: name, cell = '' }: Shoot, marks: readonly ShotMark[]): string {
    const station = indexOf(name);
    const runs = station === 0 ? plan.fires : plan.sends[station - 1]!;
    const words = marks.map(({ mark }) => (mark ? inWords(mark, runs, plan.units) : 'none'));
    const whole = cell
      .split('\n')
      .map((line) =>
        /: $|mark: \}$/.test(line)
          ? line.replace(/: (\}?)$/, (_, close: string) => `: ${words.shift()}${close}`)
          : line,
      )
      .join('\n');
    if (words.length > 0) throw new Error(`the cell has too few blanks for its shots:\n${cell}`);
    return whole;
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
