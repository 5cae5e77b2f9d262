/**
 * One simulated machine, aligned twice from the same start: by the tool's advice, and by the manual method. All its
 * random numbers come from the seed and its own number, independent of worker and order.
 */
import { Engraver } from '../simulation/engraver.ts';
import { workByHabit } from '../simulation/habit.ts';
import { limitsCell, trueUtilisations } from '../simulation/limits.ts';
import { afterTransport, drawnPlan, ENGRAVERS } from '../simulation/machines.ts';
import { random } from '../simulation/random.ts';
import { work, type Session, type Took } from '../simulation/technician.ts';
import { inWorld, workshopIn, worldOf, type World } from '../simulation/worlds.ts';
import type { Plan, Truth } from '../simulation/world.ts';
import type { Evaluation } from '../../src/model/index.ts';
import { comparison, type Compared } from './converge-command.ts';

/** The options of a run; the same for all its machines. */
export interface Order {
  readonly seed: number;
  /** Scale of the errors at the start. */
  readonly start: number;
  readonly places: Plan['places'];
  /** The number of machines, from the first, that are also run through the command. */
  readonly command: number;
  /** In the notation of `worldOf`. */
  readonly world: string;
}

/** `going on`: the rounds, or in the manual method the adjustments, ran out. `broken`: the program threw an error. */
export type End = 'within' | 'blocked' | 'going on' | 'broken';

export interface Outcome {
  readonly end: End;
  /** The tool's reason if it was blocked, or the error. */
  readonly reason?: string;
  /** The largest true utilisation at the end, and its limit. */
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

/** Doubt of the effect of a turn in the workbook, %: the spread with which the screws are drawn. */
const DOUBT = 15;

export interface Drawn {
  readonly layout: string;
  readonly world: World;
  readonly plan: Plan;
  readonly start: Truth;
  /** Random numbers of each technician, so that one does not disturb the other. */
  readonly seeds: { readonly tool: number; readonly habit: number };
}

/** The same machine in every world, apart from the fault of the world. */
export function drawMachine({ seed, start, places, world: name }: Order, machine: number): Drawn {
  const draw = random(seedOf(seed, machine));
  const engraver = ENGRAVERS[machine % ENGRAVERS.length]!;
  const world = worldOf(name);
  const plan = drawnPlan(draw, engraver, { places, doubt: DOUBT });
  const result = afterTransport(draw, plan, start, world.gain);
  const aSeed = () => Math.floor(draw.uniform() * 2 ** 32);
  const seeds = { tool: aSeed(), habit: aSeed() };
  return { layout: engraver.name, world, ...inWorld(world, plan, result, draw), seeds };
}

/** Runs with consecutive seeds must not share machines: the golden ratio separates their seeds. */
function seedOf(seed: number, machine: number): number {
  return Math.imul(seed, 0x9e3779b1) + machine;
}

/** The session by the tool's advice. */
export function sessionOf(
  { world, plan, start, seeds }: Drawn,
  onRound?: (text: string, evaluation: Evaluation) => void,
): Session {
  return work(plan, start, limitsCell(), workshopIn(world, seeds.tool), onRound);
}

export function outcomeOf(plan: Plan, { truth, last, adjustments, shots }: Session): Outcome {
  const end = last.verdict === 'continue' ? 'going on' : last.verdict;
  const reason = end === 'blocked' ? last.steps[0]?.say : undefined;
  return { end, ...(reason !== undefined && { reason }), ...worstOf(plan, truth), adjustments, shots };
}

export function runMachine(order: Order, machine: number): Result {
  const drawn = drawMachine(order, machine);
  const { layout, plan } = drawn;
  const command = machine < order.command ? comparison() : undefined;
  const mount = `${plan.mount}, in ${plan.in === 1 ? 'toward' : 'away from'} beam`;
  return {
    machine,
    layout,
    mount,
    ...withTool(drawn, command?.compare),
    habit: byHabit(drawn),
    compared: command?.finish() ?? { rounds: 0, different: 0 },
  };
}

/** A machine on which the program throws must not end the run of the others. */
function withTool(
  drawn: Drawn,
  onRound?: (text: string, evaluation: Evaluation) => void,
): Pick<Result, 'tool' | 'times'> {
  try {
    const session = sessionOf(drawn, onRound);
    return { tool: outcomeOf(drawn.plan, session), times: session.times };
  } catch (problem) {
    return {
      tool: { end: 'broken', reason: String(problem), worst: Infinity, where: 'unknown', adjustments: 0, shots: 0 },
      times: [],
    };
  }
}

function byHabit({ world, plan, start, seeds }: Drawn): Outcome {
  const engraver = new Engraver(plan, start, workshopIn(world, seeds.habit));
  const end = workByHabit(engraver) ? 'within' : 'going on';
  return { end, ...worstOf(plan, engraver.truth), adjustments: engraver.adjustments, shots: engraver.shots };
}

function worstOf(plan: Plan, truth: Truth): Pick<Outcome, 'worst' | 'where'> {
  const { station, limit, share } = trueUtilisations(plan, truth).reduce((most, one) =>
    one.share > most.share ? one : most,
  );
  return { worst: share, where: `${station} ${limit}` };
}
