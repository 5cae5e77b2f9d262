/**
 * `clockwise` for `in` is correct with a right-hand thread only: the fix is not offered if a mount of the machine has a
 * left-hand one.
 */
import type { Machine } from '../model/index.ts';
import type { Problem } from './problem.ts';

export function withoutClockFix(problem: Problem, machine: Machine | undefined): Problem {
  if (
    problem.code !== 'turn.sense' ||
    problem.fix === undefined ||
    !/\b(c?cw|(anti|counter)?clockwise)\b/i.test(String(problem.facts['text']))
  )
    return problem;
  if (!Object.values(machine?.mounts ?? {}).some(({ hand }) => hand === 'left')) return problem;
  const { fix: _, suggestion: __, ...rest } = problem;
  return rest;
}
