/**
 * One simulated machine of a world that differs from the program's model, aligned by the tool's advice, and its
 * results.
 */
import { READING } from '../simulation/workshop.ts';
import { placeKey, type Round, type ShotMark } from '../simulation/technician.ts';
import { drawMachine, outcomeOf, sessionOf, type Order, type Outcome } from './converge-machine.ts';
import { harmIn, NONE, type Harm } from './harm.ts';

export interface WorldResult {
  readonly machine: number;
  readonly outcome: Outcome;
  /** Codes of the findings at the end. */
  readonly codes: readonly string[];
  readonly rounds: number;
  /** The round after which two marks of one place, without a move between, differed by more than reading explains. */
  readonly contradiction?: number;
  /** Whether a mark was lost by a mirror whose first turn had already measured its response. */
  readonly lost: boolean;
  readonly harm: Harm;
}

/** A machine on which the program throws must not end the run of the others. */
export function runInWorld(order: Order, machine: number): WorldResult {
  const drawn = drawMachine(order, machine);
  try {
    const session = sessionOf(drawn);
    const { log, last } = session;
    const contradiction = firstContradiction(log);
    return {
      machine,
      outcome: outcomeOf(drawn.plan, session),
      codes: [...new Set(last.findings.map(({ code }) => code))],
      rounds: log.length - 1,
      ...(contradiction !== undefined && { contradiction }),
      lost: losesMark(log),
      harm: harmIn(log),
    };
  } catch (problem) {
    return {
      machine,
      outcome: { end: 'broken', reason: String(problem), worst: Infinity, where: 'unknown', adjustments: 0, shots: 0 },
      codes: [],
      rounds: 0,
      lost: false,
      harm: NONE,
    };
  }
}

/** Significance at which two marks contradict each other. */
const CHANCE = 0.001;
/** Variance of one part of a mark as the workbook declares it, mm². */
const DECLARED = READING.step ** 2 / 12 + READING.noise ** 2;

/**
 * Chi-square with two degrees of freedom: its upper tail is exp(−x/2). A tape on the bed is laid anew and is left out.
 */
export function firstContradiction(log: readonly Round[]): number | undefined {
  let seen = new Map<string, ShotMark['mark'][]>();
  for (const [round, { done, marks }] of log.entries()) {
    if (done.some(({ kind }) => kind === 'turn' || kind === 'shift' || kind === 'lock' || kind === 'care'))
      seen = new Map();
    for (const { station, place, mark } of marks) {
      if (!mark || place.height !== undefined) continue;
      const key = placeKey(station, place);
      const before = seen.get(key) ?? [];
      if (
        before.some(
          (one) =>
            one && Math.exp(-((one.right - mark.right) ** 2 + (one.up - mark.up) ** 2) / (4 * DECLARED)) < CHANCE,
        )
      )
        return round;
      seen.set(key, [...before, mark]);
    }
  }
  return undefined;
}

/**
 * A place that had a mark and later has none, although every mirror that was turned between had been turned before, so
 * that its response was measured: the first turn of a mirror may lose the mark.
 */
export function losesMark(log: readonly Round[]): boolean {
  const answered = new Set<string>();
  /** By place: the mirrors turned since it was marked last. */
  const since = new Map<string, Set<string>>();
  for (const { done, marks } of log) {
    const turned = done.flatMap((step) => (step.kind === 'turn' ? [step.part] : []));
    for (const parts of since.values()) turned.forEach((part) => parts.add(answered.has(part) ? part : FIRST_TURN));
    for (const { station, place, mark } of marks) {
      const key = placeKey(station, place);
      const parts = since.get(key);
      if (mark) since.set(key, new Set());
      else if (parts && parts.size > 0 && !parts.has(FIRST_TURN)) return true;
    }
    if (marks.length > 0) turned.forEach((part) => answered.add(part));
  }
  return false;
}

/** Stands for a mirror that had not been turned before. */
const FIRST_TURN = 'first turn';
