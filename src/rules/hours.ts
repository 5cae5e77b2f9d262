/** The machine's own hour counter goes backwards, and no cell says that it was replaced. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';

export function hours(logged: LogEntry, { counter }: State): Finding | undefined {
  const { hours: now } = logged.entry;
  if (now === undefined || now.isNew || counter === undefined || now.hours >= counter) return undefined;
  return findingAt(logged, pathTo('hours'), 'hours.less', { hours: inWords(now.hours), before: inWords(counter) });
}

function inWords(hours: number): string {
  return `${Number(hours.toPrecision(9))} h`;
}
