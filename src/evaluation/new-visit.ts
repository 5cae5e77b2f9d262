/** Steps after a release begin another visit: its session cell stands before the first cell that they write. */
import type { Step } from '../model/index.ts';

const SESSION = 'session: another look\n';

export function inNewVisit(steps: readonly Step[]): readonly Step[] {
  const first = steps.findIndex(({ cell }) => cell !== undefined);
  return steps.map((step, k) => (k === first ? { ...step, cell: `${SESSION}---\n${step.cell}` } : step));
}
