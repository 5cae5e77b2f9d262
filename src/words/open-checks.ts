/** Checks that were left open, as a list by its name. */
import { textInCell } from './words.ts';

/** A check that was left open, and the title of its list. */
interface Open {
  readonly item: string;
  readonly list: string;
}

/** The title of the list that the checks are of; for several lists a common one. */
export function listOfOpen(open: readonly Open[]): string {
  const lists = new Set(open.map(({ list }) => list));
  return lists.size === 1 ? open[0]!.list : 'what was open';
}

/** The cell that logs the checks as done. */
export function doneInCell(open: readonly Open[]): string {
  const items = open.map(({ item }) => `  - ${textInCell(item)}\n`);
  return `checks: ${textInCell(listOfOpen(open))}\ndone:\n${items.join('')}`;
}
