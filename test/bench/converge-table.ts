/** Counts of results, and the table that prints them. */
import { leastCount } from './converge-counts.ts';
import type { Order, Outcome, Result } from './converge-machine.ts';

/** Goals: minimum shares, by the count that meets them, and maximum costs; absent without a goal. */
export interface Goals {
  readonly truly: number;
  readonly ofReported: number;
  readonly adjustments?: Spent;
  readonly shots?: Spent;
  /** Machines that end as blocked, or do not end. */
  readonly unfinished?: number;
}

interface Spent {
  readonly median: number;
  readonly high: number;
}

/**
 * Places between the stops and further corners are shot if they could fail; `shotsAtEnds` is the count without them.
 */
export const USUAL = {
  truly: 0.995,
  ofReported: 0.8,
  adjustments: { median: 7, high: 12 },
  shots: { median: 28, high: 42 },
  shotsAtEnds: { median: 22, high: 32 },
  unfinished: 0,
} as const satisfies Goals & { readonly shotsAtEnds: Spent };

/** Unmeasured mounts: some turns are trial turns. Far worse machines: only the end counts. */
export function goalsOf({ places, start }: Pick<Order, 'places' | 'start'>): Goals {
  const {
    ofReported,
    adjustments: { median, high },
  } = USUAL;
  if (start > 1) return { truly: 0.97, ofReported };
  return places === 'given' ? USUAL : { truly: 0.97, ofReported, adjustments: { median: median + 3, high: high + 3 } };
}

/** A true utilisation up to here is no failure: a reading on tape cannot distinguish it from 1. */
export const LENIENT = 1.25;
const HIGH = 0.95;

export interface Counts {
  readonly machines: number;
  readonly truly: number;
  readonly stuck: number;
  readonly going: number;
  readonly reported: number;
  readonly trulyOfReported: number;
  readonly adjustments: Spent;
  readonly shots: Spent;
}

export function isTrulyWithin({ worst }: Outcome): boolean {
  return worst <= LENIENT;
}

export function counted(outcomes: readonly Outcome[]): Counts {
  const number = (of: (outcome: Outcome) => boolean) => outcomes.filter(of).length;
  const spent = (what: 'adjustments' | 'shots') => {
    const values = outcomes.map((outcome) => (isTrulyWithin(outcome) ? outcome[what] : Infinity));
    return { median: quantile(values, 0.5), high: quantile(values, HIGH) };
  };
  return {
    machines: outcomes.length,
    truly: number(isTrulyWithin),
    stuck: number(({ end }) => end === 'blocked'),
    going: number(({ end }) => end === 'going on'),
    reported: number(({ end }) => end === 'within'),
    trulyOfReported: number(({ end, worst }) => end === 'within' && worst <= 1),
    adjustments: spent('adjustments'),
    shots: spent('shots'),
  };
}

/** The smallest value that this share of all values does not exceed. */
export function quantile(values: readonly number[], share: number): number {
  return values.toSorted((one, other) => one - other)[Math.max(0, Math.ceil(share * values.length) - 1)] ?? Number.NaN;
}

export function grouped<T>(items: readonly T[], of: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(of(item), [...(groups.get(of(item)) ?? []), item]);
  return groups;
}

/** The missed goals in words, each with the value reached; empty if all are met. */
export function goalsMissed(
  goals: Goals,
  { machines, truly, stuck, going, reported, trulyOfReported, adjustments, shots }: Counts,
): string[] {
  const spent = (what: string, goal: Spent | undefined, { median, high }: Spent): [boolean, string][] =>
    goal
      ? [
          [!(median <= goal.median), `${what}: median ${whole(median)}`],
          [!(high <= goal.high), `${what}: 95th ${whole(high)}`],
        ]
      : [];
  const missed: [boolean, string][] = [
    [!(truly >= leastCount(machines, goals.truly)), `${percent(truly, machines)} truly within × ${LENIENT}`],
    [
      !(trulyOfReported >= leastCount(reported, goals.ofReported)),
      `${percent(trulyOfReported, reported)} of those reported within are truly within`,
    ],
    [stuck + going > (goals.unfinished ?? Infinity), `${stuck} stuck, ${going} going on`],
    ...spent('adjustments', goals.adjustments, adjustments),
    ...spent('shots', goals.shots, shots),
  ];
  return missed.flatMap(([is, what]) => (is ? [what] : []));
}

function headOf({ truly, ofReported, adjustments, shots, unfinished }: Goals): string[][] {
  const most = (of: Spent | undefined) => (of ? [`≤ ${of.median}`, `≤ ${of.high}`] : ['', '']);
  const none = unfinished === undefined ? '' : `≤ ${unfinished}`;
  return [
    ['', '', 'machines', 'truly within', 'stuck', 'going', 'reported', 'of those,', 'adjustments', '', 'shots', ''],
    ['', '', '', `× ${LENIENT}`, '', 'on', 'within', 'truly × 1', 'median', '95th', 'median', '95th'],
    [
      '',
      'goal',
      '',
      `≥ ${truly * 100} %`,
      none,
      none,
      '',
      `≥ ${ofReported * 100} %`,
      ...most(adjustments),
      ...most(shots),
    ],
  ];
}

export function table(goals: Goals, results: readonly Result[]): string {
  const pair = (name: string, some: readonly Result[]) => [
    row(
      name,
      'tool',
      some.map(({ tool }) => tool),
    ),
    row(
      '',
      'habit',
      some.map(({ habit }) => habit),
    ),
  ];
  const by = (of: (result: Result) => string) =>
    [...grouped(results, of)]
      .toSorted(([one], [other]) => (one < other ? -1 : 1))
      .flatMap(([name, some]) => pair(name, some));
  return aligned([
    ...headOf(goals),
    ...pair('all', results),
    [],
    ...by(({ layout }) => layout),
    [],
    ...by(({ mount }) => mount),
  ]);
}

function row(name: string, who: string, outcomes: readonly Outcome[]): string[] {
  const { machines, truly, stuck, going, reported, trulyOfReported, adjustments, shots } = counted(outcomes);
  return [
    name,
    who,
    String(machines),
    percent(truly, machines),
    String(stuck),
    String(going),
    String(reported),
    percent(trulyOfReported, reported),
    whole(adjustments.median),
    whole(adjustments.high),
    whole(shots.median),
    whole(shots.high),
  ];
}

/** Rounded down, so that a goal that is not met never looks met. */
export function percent(part: number, of: number): string {
  return of === 0 ? '–' : `${(Math.floor((part / of) * 1000) / 10).toFixed(1)} %`;
}

function whole(value: number): string {
  return value === Infinity ? '∞' : String(value);
}

/** Names to the left, numbers to the right. */
export function aligned(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((cells) => (cells[column] ?? '').length)));
  const padded = (cell: string, column: number) =>
    column < 2 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!);
  return rows.map((cells) => cells.map(padded).join('  ').trimEnd()).join('\n');
}
