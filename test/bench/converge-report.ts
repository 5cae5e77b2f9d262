/** The report of a run: its table and the text around it. */
import type { Order, Result } from './converge-machine.ts';
import { counted, goalsMissed, goalsOf, grouped, isTrulyWithin, LENIENT, quantile, table } from './converge-table.ts';

export interface Report {
  readonly lines: readonly string[];
  /** Whether a goal is missed, the command's answer differs from the functions', or the program throws. */
  readonly missed: boolean;
}

export function report(order: Order, results: readonly Result[]): Report {
  const goals = goalsOf(order);
  const tools = results.map(({ tool }) => tool);
  const times = results.flatMap((result) => result.times);
  const total = (of: (result: Result) => number) => results.reduce((sum, result) => sum + of(result), 0);
  const different = total(({ compared }) => compared.different);
  const broken = tools.filter(({ end }) => end === 'broken').length;
  const missed = [
    ...goalsMissed(goals, counted(tools)),
    ...(different > 0 ? ['the command differs'] : []),
    ...(broken > 0 ? ['the program breaks'] : []),
  ];
  const lines = [
    `${results.length} machines, seed ${order.seed}, start errors × ${order.start}, places ${order.places}, node ${process.version}`,
    `Truly within is required of every machine, with any reported verdict; one that is not × ${LENIENT} counts as ∞ adjustments and shots.`,
    'Going on: with the tool after 40 rounds, by habit after 120 adjustments.',
    '',
    table(goals, results),
    '',
    `${times.length} evaluations; how the stations stand: ${spentOn(times.map(({ verdict }) => verdict))}; the advice: ${spentOn(times.map(({ advice }) => advice))}`,
    `command: ${total(({ compared }) => compared.rounds)} rounds of ${Math.min(order.command, results.length)} machines compared with the functions, ${different} differ`,
    `broken: ${broken}`,
    ...whyEnded(results),
    ...failures(results),
    missed.length === 0 ? 'every goal met' : `MISSED: ${missed.join('; ')}`,
  ];
  return { lines, missed: missed.length > 0 };
}

function spentOn(times: readonly number[]): string {
  return `median ${quantile(times, 0.5).toFixed(1)} ms, 95th ${quantile(times, 0.95).toFixed(1)} ms`;
}

/** Longer reasons are cut: their start identifies them. */
const LONGEST = 150;

/** The messages where the tool was blocked or the program threw, most common first. */
function whyEnded(results: readonly Result[]): string[] {
  const ended = results.flatMap(({ tool: { end, reason } }) =>
    reason === undefined ? [] : [`${end}: ${reason.slice(0, LONGEST)}`],
  );
  return [...grouped(ended, (said) => said)]
    .toSorted(([, some], [, others]) => others.length - some.length)
    .map(([said, some]) => `${some.length} × ${said}`);
}

const MOST_LISTED = 20;

function failures(results: readonly Result[]): string[] {
  const failed = results.filter(({ tool }) => !isTrulyWithin(tool));
  const listed = failed
    .slice(0, MOST_LISTED)
    .map(({ machine, tool }) => `${machine} (${tool.end}, ${tool.where} × ${tool.worst.toFixed(2)})`);
  return failed.length === 0
    ? []
    : [
        `failed: ${failed.length}; to look at with --show: ${listed.join(', ')}${failed.length > MOST_LISTED ? ', …' : ''}`,
      ];
}
