/** Screws turned while the log has their lock nuts tight: they were loosened and nobody wrote it down, or the turn did little. */
import { findingAt, type Finding, type LogEntry } from '../model/index.ts';
import { turnsWhileTight } from '../machine/index.ts';
import type { State } from '../estimate/index.ts';

export function locked(logged: LogEntry, { nuts, system }: State): Finding | undefined {
  const { entry } = logged;
  if (entry.kind !== 'adjust' || !system || !turnsWhileTight(nuts, entry)) return undefined;
  return findingAt(logged, 'turn', 'order.locked', { part: entry.part });
}
