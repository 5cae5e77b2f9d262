/** Tape that carried marks already: an old burn is easily read for the new one. */
import type { Finding, LogEntry } from '../../model/index.ts';
import { at } from './rule.ts';

export function tape(logged: LogEntry): Finding | undefined {
  const { entry } = logged;
  return entry.kind === 'marks' && entry.tape === 'reused' ? at(logged, 'tape', 'fire.tape') : undefined;
}
