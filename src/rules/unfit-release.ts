/** Put back in service with an unfit part. The finding stays, whatever is done to the part later. */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { curesOf } from '../advice/index.ts';
import { listed } from '../words/index.ts';
import { isReturn } from './rule.ts';

export function unfitRelease(logged: LogEntry, state: State): Finding | undefined {
  const cures = curesOf(state);
  if (!isReturn(logged) || cures.length === 0) return undefined;
  return findingAt(logged, pathTo('release'), 'release.unfit', {
    part: listed(cures.map(({ part }) => part)),
    what: listed(cures.map(({ part, found }) => `${part} ${found}`)),
    cell: cures.map(({ cell }) => cell).join('---\n'),
  });
}
