/** Steps after a release begin another visit: its session cell comes before the first cell that they log. */
import type { Step } from '../model/index.ts';

const SESSION = 'session: another look\n';

export function inNewVisit(steps: readonly Step[]): readonly Step[] {
  const first = steps.findIndex(({ cell }) => cell !== undefined);
  return steps.map((step, k) => (k === first ? { ...step, cell: `${SESSION}---\n${step.cell}` } : step));
}
