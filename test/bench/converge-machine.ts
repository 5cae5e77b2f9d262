/**
 * One simulated machine, aligned twice from the same start: as the tool says, and by today's habit. All its random
 * numbers come from the seed and its own number, whoever runs it and in whatever order.
 */
import { Engraver } from '../simulation/engraver.ts';
import { workByHabit } from '../simulation/habit.ts';
import { limitsCell, trueShares } from '../simulation/limits.ts';
import { afterTransport, drawnPlan, ENGRAVERS } from '../simulation/machines.ts';
import { random } from '../simulation/random.ts';
import { work, type Session, type Took } from '../simulation/technician.ts';
import { ordinary } from '../simulation/workshop.ts';
import type { Plan, Truth } from '../simulation/world.ts';
import type { Evaluation } from '../../src/model/index.ts';
import { comparison, type Compared } from './converge-command.ts';

/** What is asked of a run; the same for all its machines. */
export interface Order {
  readonly seed: number;
  /** Scale of the errors at the start. */
  readonly start: number;
  readonly places: Plan['places'];
  /** So many machines, the first ones, are asked of the command as well. */
  readonly command: number;
}

/** `going on`: the rounds, or by habit the adjustments, ran out. `broken`: the program threw an error. */
export type End = 'within' | 'blocked' | 'going on' | 'broken';

export interface Outcome {
  readonly end: End;
  /** What the tool said where it was blocked, or the error. */
  readonly reason?: string;
  /** The largest true share of a limit at the end, and which limit that is. */
  readonly worst: number;
  readonly where: string;
  readonly adjustments: number;
  readonly shots: number;
}

export interface Result {
  readonly machine: number;
  readonly layout: string;
  readonly mount: string;
  readonly tool: Outcome;
  readonly habit: Outcome;
  readonly times: readonly Took[];
  readonly compared: Compared;
}

/** The workbook says so of what a turn does, %: the spread with which the screws are drawn. */
const DOUBT = 15;

export interface Drawn {
  readonly layout: string;
  readonly plan: Plan;
  readonly start: Truth;
  /** Of what happens to either technician, so that one does not disturb the other. */
  readonly seeds: { readonly tool: number; readonly habit: number };
}

export function drawMachine({ seed, start, places }: Order, machine: number): Drawn {
  const draw = random(seedOf(seed, machine));
  const engraver = ENGRAVERS[machine % ENGRAVERS.length]!;
  const plan = drawnPlan(draw, engraver, { places, doubt: DOUBT });
  const aSeed = () => Math.floor(draw.uniform() * 2 ** 32);
  return { layout: engraver.name, plan, start: afterTransport(draw, plan, start), seeds: { tool: aSeed(), habit: aSeed() } };
}

/** Runs whose seeds follow one another must not share machines: the golden ratio keeps them apart. */
function seedOf(seed: number, machine: number): number {
  return Math.imul(seed, 0x9e3779b1) + machine;
}

/** The session that the tool leads. */
export function sessionOf({ plan, start, seeds }: Drawn, asked?: (text: string, told: Evaluation) => void): Session {
  return work(plan, start, limitsCell(), ordinary(random(seeds.tool)), asked);
}

export function runMachine(order: Order, machine: number): Result {
  const drawn = drawMachine(order, machine);
  const { layout, plan } = drawn;
  const command = machine < order.command ? comparison() : undefined;
  const mount = `${plan.mount}, in ${plan.in === 1 ? 'toward' : 'away from'} beam`;
  return { machine, layout, mount, ...withTool(drawn, command?.asked), habit: byHabit(drawn), compared: command?.finish() ?? { rounds: 0, different: 0 } };
}

/** One machine that breaks the program must not take the count of the others with it. */
function withTool(drawn: Drawn, asked?: (text: string, told: Evaluation) => void): Pick<Result, 'tool' | 'times'> {
  try {
    const { truth, last, adjustments, shots, times } = sessionOf(drawn, asked);
    const end = last.verdict === 'continue' ? 'going on' : last.verdict;
    const reason = end === 'blocked' ? last.steps[0]?.say : undefined;
    return { tool: { end, ...(reason !== undefined && { reason }), ...worstOf(drawn.plan, truth), adjustments, shots }, times };
  } catch (problem) {
    return { tool: { end: 'broken', reason: String(problem), worst: Infinity, where: 'unknown', adjustments: 0, shots: 0 }, times: [] };
  }
}

function byHabit({ plan, start, seeds }: Drawn): Outcome {
  const engraver = new Engraver(plan, start, ordinary(random(seeds.habit)));
  const end = workByHabit(engraver) ? 'within' : 'going on';
  return { end, ...worstOf(plan, engraver.truth), adjustments: engraver.adjustments, shots: engraver.shots };
}

function worstOf(plan: Plan, truth: Truth): Pick<Outcome, 'worst' | 'where'> {
  const { station, limit, share } = trueShares(plan, truth).reduce((most, one) => (one.share > most.share ? one : most));
  return { worst: share, where: `${station} ${limit}` };
}
