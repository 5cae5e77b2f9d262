/** Lock nuts loosened or tightened although the machine cell declares none. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import { hasNuts } from '../machine/index.ts';
import type { State } from '../estimate/index.ts';

export function noLocks(logged: LogEntry, { system }: State): Finding | undefined {
  const { entry } = logged;
  if (
    entry.kind !== 'adjust' ||
    (entry.lock ?? entry.foundLock) === undefined ||
    !system ||
    hasNuts(system, entry.part)
  )
    return undefined;
  const mount = system.machine.path.find(({ name }) => name === entry.part)!.mount!;
  return findingAt(logged, pathTo('lock'), 'order.noLocks', { part: entry.part, mount });
}
