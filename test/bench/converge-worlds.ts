/**
 * The report of a run in several worlds: one table with a line a world; below it goals, reasons for `blocked`, and
 * risks.
 */
import type { Order } from './converge-machine.ts';
import { aligned, grouped, percent, quantile } from './converge-table.ts';
import { costs, goalsIn, isFalse, hasVerdictWithin, isTruly, type Goal } from './converge-goals.ts';
import type { WorldResult } from './converge-world.ts';
import { added, MISREAD, NONE } from './harm.ts';
import type { Report } from './converge-report.ts';

export interface WorldRun {
  readonly world: string;
  readonly results: readonly WorldResult[];
  /** Wall clock. */
  readonly seconds: number;
}

export function worldsReport({ seed, start, places }: Omit<Order, 'world'>, runs: readonly WorldRun[]): Report {
  const goals = runs.map(goalsOf);
  const missed = goals.flat().filter(isMissed).length;
  const all = runs.flatMap(({ results }) => results);
  return {
    missed: missed > 0,
    lines: [
      `${runs[0]?.results.length ?? 0} machines a world, seed ${seed}, start errors × ${start}, places ${places}, node ${process.version}`,
      '',
      aligned([...HEAD, ...runs.map((run, k) => row(run, goals[k]!))]),
      '',
      ...runs.flatMap((run, k) => [...details(run, goals[k]!), '']),
      ...harmLines('all worlds', all),
      missed === 0 ? 'every goal met' : `${missed} goals MISSED`,
    ],
  };
}

const HEAD = [
  [
    'world',
    '',
    'machines',
    'within',
    'blocked',
    'going',
    'broken',
    'truly',
    'of within,',
    '',
    'false',
    'adjustments',
    '',
    'shots',
    '',
    'rounds',
    '',
    'time',
  ],
  [
    '',
    '',
    '',
    '',
    '',
    'on',
    '',
    '× 1.25',
    'truly × 1',
    '× 1.25',
    'within',
    'median',
    '95th',
    'median',
    '95th',
    'median',
    '95th',
    's',
  ],
];

/** One world in one line. */
export function row({ world, results, seconds }: WorldRun, goals: readonly Goal[] = []): string[] {
  const number = (is: (result: WorldResult) => boolean) => String(results.filter(is).length);
  const ended = (end: string) => number(({ outcome }) => outcome.end === end);
  const within = results.filter(hasVerdictWithin);
  const share = (count: number) => percent(count, within.length);
  const pair = (values: readonly number[]) =>
    [0.5, 0.95].map((part) => String(quantile(values, part)).replace('Infinity', '∞'));
  return [
    world,
    goals.some(isMissed) ? 'MISSED' : '',
    String(results.length),
    ended('within'),
    ended('blocked'),
    ended('going on'),
    ended('broken'),
    number(isTruly),
    share(within.filter(({ outcome }) => outcome.worst <= 1).length),
    share(within.filter(isTruly).length),
    number(isFalse),
    ...pair(costs('adjustments', results)),
    ...pair(costs('shots', results)),
    ...pair(results.map(({ rounds }) => rounds)),
    seconds.toFixed(0),
  ];
}

function goalsOf({ world, results }: WorldRun): Goal[] {
  const broken = results.filter(({ outcome }) => outcome.end === 'broken').length;
  return [...goalsIn(world, results), ...(broken > 0 ? [{ say: `broken: ${broken}`, met: false }] : [])];
}

function isMissed({ met }: Goal): boolean {
  return met === false;
}

const MOST_REASONS = 6;
const MOST_LISTED = 20;

function details({ world, results }: WorldRun, goals: readonly Goal[]): string[] {
  const failed = results.filter((result) => !isTruly(result) || !hasVerdictWithin(result));
  const listed = failed
    .slice(0, MOST_LISTED)
    .map(({ machine, outcome }) => `${machine} (${outcome.end}, ${outcome.where} × ${outcome.worst.toFixed(2)})`);
  return [
    `${world}`,
    ...goals.map(({ say, met }) => `  ${(met === undefined ? '' : met ? 'met' : 'MISSED').padEnd(6)}  ${say}`),
    ...counted(results.flatMap(({ outcome: { end, reason } }) => (reason === undefined ? [] : [`${end}: ${reason}`]))),
    ...counted(
      results
        .filter(({ outcome }) => outcome.end === 'blocked')
        .flatMap(({ codes }) => [
          `blocked with ${
            codes
              .filter((code) => /^(log|mount|limits|mark|care)\./.test(code))
              .toSorted()
              .join(' ') || 'no finding'
          }`,
        ]),
    ),
    ...harmLines(world, results),
    ...(failed.length === 0
      ? []
      : [`  to look at with --world ${world} --show: ${listed.join(', ')}${failed.length > MOST_LISTED ? ', …' : ''}`]),
  ];
}

/** The start identifies a reason; figures differ from machine to machine and are masked. */
const LONGEST = 150;

function counted(reasons: readonly string[]): string[] {
  const masked = reasons.map((reason) =>
    reason
      .split('\n')[0]!
      .replace(/(?<![A-Za-z\d]|below )\d[\d./]*/g, '#')
      .slice(0, LONGEST),
  );
  const groups = [...grouped(masked, (reason) => reason)].toSorted(
    ([, some], [, others]) => others.length - some.length,
  );
  return groups.slice(0, MOST_REASONS).map(([reason, some]) => `  ${some.length} × ${reason}`);
}

function harmLines(world: string, results: readonly WorldResult[]): string[] {
  const harm = results.reduce((sofar, result) => added(sofar, result.harm), NONE);
  const { moves, withChance, bodies, overturns, below80, below50, misled } = harm;
  return [
    `  risk, ${world}: ${moves} moves advised; while a mark is unexplained ${bodies} of tube or block, ${overturns} turns above the bound; ${below80} below 80 %, ${below50} below 50 % (of ${withChance} with a chance); while a newest mark is over ${MISREAD} mm misread ${misled.moves}, ${misled.bodies} of them of tube or block`,
    ...counted(harm.reasons),
  ];
}
