/** The goals of each world, and whether they are met. */
import type { Outcome } from './converge-machine.ts';
import { LENIENT, quantile, USUAL } from './converge-table.ts';
import type { WorldResult } from './converge-world.ts';
import { leastCount, mostCount } from './converge-counts.ts';

export interface Goal {
  /** The count reached and the required count. */
  readonly say: string;
  /** Absent for a count that is printed and not judged. */
  readonly met?: boolean;
}

type Is = (result: WorldResult) => boolean;

export const isTruly: Is = ({ outcome }) => outcome.worst <= LENIENT;
export const hasVerdictWithin: Is = ({ outcome }) => outcome.end === 'within';
/** Verdict within, though some limit is exceeded by more than a quarter somewhere on the travels. */
export const isFalse: Is = (result) => hasVerdictWithin(result) && !isTruly(result);
const isBlockedWith =
  (...codes: readonly string[]): Is =>
  (result) =>
    result.outcome.end === 'blocked' && codes.some((code) => result.codes.includes(code));

/** Rounds after the first contradiction within which the verdict is due. */
const PROMPTLY = 3;

/** A machine that is blocked before two of its marks contradict each other counts as well. */
const isNamedLoose: Is = (result) =>
  isBlockedWith('log.loose')(result) && result.rounds - (result.contradiction ?? result.rounds) <= PROMPTLY;

type Goals = (results: readonly WorldResult[]) => Goal[];

const truly =
  (share: number): Goals =>
  (results) => [least(`truly within × ${LENIENT}`, isTruly, results, share)];
const ofReported =
  (share: number): Goals =>
  (results) => [
    least(
      'of verdict within, truly × 1.0',
      ({ outcome }) => outcome.worst <= 1,
      results.filter(hasVerdictWithin),
      share,
    ),
  ];
const falseMost =
  (share: number): Goals =>
  (results) => [most(`verdict within, but false beyond × ${LENIENT}`, isFalse, results, share)];
const named =
  (...codes: readonly string[]): Goals =>
  (results) => [
    noted(
      `of the others, blocked with ${codes.join(' or ')}`,
      isBlockedWith(...codes),
      results.filter((result) => !hasVerdictWithin(result)),
    ),
  ];
const wrong: Goals = (results) => [
  least(
    `truly within × ${LENIENT}, or blocked with mount.contradicted`,
    (result) => isTruly(result) || isBlockedWith('mount.contradicted')(result),
    results,
    0.95,
  ),
  least('no mark lost after the first response', ({ lost }) => !lost, results, 0.99),
  noted('blocked with mount.contradicted', isBlockedWith('mount.contradicted'), results),
];
const loose: Goals = (results) => [
  least(`blocked with log.loose within ${PROMPTLY} rounds of the first contradiction`, isNamedLoose, results, 0.99),
  atMost('verdict within', hasVerdictWithin, results, Math.floor(results.length / 100)),
  noted('contradicted themselves', ({ contradiction }) => contradiction !== undefined, results),
];
const coarse: Goals = (results) => [
  least(
    `verdict within and truly × ${LENIENT}, or blocked with log.reading or limits.fine`,
    (result) => (hasVerdictWithin(result) && isTruly(result)) || isBlockedWith('log.reading', 'limits.fine')(result),
    results,
    0.9,
  ),
  ...falseMost(0.02)(results),
  noted('blocked with log.reading or limits.fine', isBlockedWith('log.reading', 'limits.fine'), results),
];
const base: Goals = (results) => [
  ...truly(USUAL.truly)(results),
  ...ofReported(USUAL.ofReported)(results),
  spent('adjustments', results),
  spent('shots', results),
];

const GOALS: Readonly<Record<string, readonly Goals[]>> = {
  base: [base],
  'noise=0.4': [truly(0.98), ofReported(0.85)],
  'noise=0.58': [coarse],
  'outliers=0.05': [truly(0.98)],
  'outliers=0.01': [truly(0.98)],
  'stiction=0.0625': [truly(0.98)],
  'backlash=0.03125': [truly(0.98)],
  'gain=0.25': [truly(0.98)],
  'bow=2': [falseMost(0.03), named('log.bowed')],
  'rack=6': [falseMost(0.03), named('log.racking')],
  'loose=0.05': [loose],
  'wrong=in': [wrong],
  'wrong=mirror': [wrong],
  'wrong=swap': [wrong],
  'wrong=pitch': [wrong],
};

/** Empty for a world, or a value of it, without a goal. */
export function goalsIn(world: string, results: readonly WorldResult[]): Goal[] {
  return (GOALS[world] ?? []).flatMap((goals) => goals(results));
}

function least(what: string, is: Is, results: readonly WorldResult[], share: number): Goal {
  const [count, required] = [results.filter(is).length, leastCount(results.length, share)];
  return {
    say: `${what}: ${count} of ${results.length}, at least ${required} (${percent(share)})`,
    met: count >= required,
  };
}

function most(what: string, is: Is, results: readonly WorldResult[], share: number): Goal {
  return atMost(what, is, results, mostCount(results.length, share), ` (${percent(share)})`);
}

function atMost(what: string, is: Is, results: readonly WorldResult[], required: number, because = ''): Goal {
  const count = results.filter(is).length;
  return { say: `${what}: ${count} of ${results.length}, at most ${required}${because}`, met: count <= required };
}

function noted(what: string, is: Is, results: readonly WorldResult[]): Goal {
  return { say: `${what}: ${results.filter(is).length} of ${results.length}` };
}

function spent(what: 'adjustments' | 'shots', results: readonly WorldResult[]): Goal {
  const values = costs(what, results);
  const [middle, end] = [quantile(values, 0.5), quantile(values, 0.95)];
  const { median, high } = USUAL[what];
  const without =
    what === 'shots'
      ? ` (${USUAL.shotsAtEnds.median} / ${USUAL.shotsAtEnds.high} where only the ends of the travels were shot)`
      : '';
  return {
    say: `${what}: ${middle} / ${end}, at most ${median} / ${high}${without}`,
    met: middle <= median && end <= high,
  };
}

/** Infinite for a machine that is not truly within. */
export function costs(what: 'adjustments' | 'shots', results: readonly WorldResult[]): number[] {
  const cost = (outcome: Outcome) => (outcome.worst <= LENIENT ? outcome[what] : Infinity);
  return results.map(({ outcome }) => cost(outcome));
}

function percent(share: number): string {
  return `${Number((100 * share).toFixed(1))} %`;
}
