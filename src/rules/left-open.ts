/** Checks that are still open when the machine is fired or goes back to work. */
import { findingAt, pathTo, type FactsOf, type Finding, type LogEntry } from '../model/index.ts';
import type { OpenCheck, State } from '../estimate/index.ts';
import { doneInCell, shortened, listed } from '../words/index.ts';
import { fires, isReturn } from './rule.ts';

/** For shots it is reported once, until checks are logged again. */
export function leftOpen(logged: LogEntry, { practice: { open, hasFired } }: State): Finding[] {
  if (isReturn(logged) && open.length > 0) return [findingAt(logged, pathTo('release'), 'release.open', factsOf(open))];
  const here = open.filter(({ isOfVisit }) => isOfVisit);
  return fires(logged) && !hasFired && here.length > 0
    ? [findingAt(logged, pathTo(logged.entry.kind), 'fire.open', factsOf(here))]
    : [];
}

function factsOf(open: readonly OpenCheck[]): FactsOf<'fire.open' | 'release.open'> {
  const items = open.map(({ item }) => item);
  return {
    items: listed(items.map(shortened)),
    cell: doneInCell(open),
  };
}
