/** Tape that carried marks already: an old burn is easily mistaken for the new one. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';

export function tape(logged: LogEntry): Finding | undefined {
  const { entry } = logged;
  return entry.kind === 'marks' && entry.tape === 'reused'
    ? findingAt(logged, pathTo('tape'), 'fire.tape', {})
    : undefined;
}
