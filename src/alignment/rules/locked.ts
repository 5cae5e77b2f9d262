/** Screws turned while the log has their lock tight: it was loosened and nobody wrote it down, or the turn did nothing. */
import type { Finding, LogEntry } from '../../model/index.ts';
import type { State } from '../state.ts';
import { at } from './rule.ts';

export function locked(logged: LogEntry, state: State): Finding | undefined {
  const { entry } = logged;
  if (entry.kind !== 'adjust' || entry.lock !== undefined || Object.keys(entry.turns).length === 0) return undefined;
  const isTight = state.locked.has(entry.part) && !state.loose.has(entry.part);
  return isTight ? at(logged, 'turn', 'order.locked', { part: entry.part }) : undefined;
}
