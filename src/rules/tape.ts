/** Tape that carried marks already: an old burn is easily mistaken for the new one. */
import { findingAt, type Finding, type LogEntry } from '../model/index.ts';

export function tape(logged: LogEntry): Finding | undefined {
  const { entry } = logged;
  return entry.kind === 'marks' && entry.tape === 'reused' ? findingAt(logged, 'tape', 'fire.tape', {}) : undefined;
}
