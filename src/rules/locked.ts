/**
 * Screws turned while their lock nuts are tight by the log: they were loosened unlogged, or the turn had little effect.
 */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import { turnsWhileTight } from '../machine/index.ts';
import type { State } from '../estimate/index.ts';

export function locked(logged: LogEntry, { nuts, system }: State): Finding | undefined {
  const { entry } = logged;
  if (entry.kind !== 'adjust' || !system || !turnsWhileTight(nuts, entry)) return undefined;
  return findingAt(logged, pathTo('turn'), 'order.locked', { part: entry.part });
}
