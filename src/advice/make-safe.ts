/** Checks that this visit left open come before the first shot. The verdict does not change. */
import type { Step } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { doneInCell, listed, listOfOpen, shortened } from '../words/index.ts';

/** @param steps what is advised otherwise */
export function makeSafe({ practice }: State, steps: readonly Step[]): Step[] {
  const open = practice.open.filter(({ isOfVisit }) => isOfVisit);
  if (open.length === 0 || !steps.some(({ kind }) => kind === 'shoot')) return [];
  const items = open.map(({ item }) => item);
  return [
    {
      kind: 'check',
      items,
      brief: `${shortened(listOfOpen(open))} (${open.length} open)`,
      say: `Before you fire, check what is still open: ${listed(items)}.`,
      cell: doneInCell(open),
    },
  ];
}
