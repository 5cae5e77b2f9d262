/**
 * A part that was found unfit, reported at the cell that found it, in any visit: an error while it is unfit,
 * information once it is cleared.
 */
import { findingAt, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import type { State, Cleared, Unfit } from '../estimate/index.ts';
import { cureOf } from '../advice/index.ts';

export function unfit({ unfit: all }: State, entries: readonly LogEntry[]): Finding[] {
  return all.flatMap((record): Finding[] => {
    const logged = entries[record.order];
    if (!logged) return [];
    const finding = findingAt(logged, pathTo('found'), 'care.unfit', {
      part: record.part,
      found: record.found,
      since: sinceInWords(record),
    });
    return [record.cleared === undefined ? finding : { ...finding, severity: 'information' }];
  });
}

function sinceInWords({ part, found, cleared }: Unfit): string {
  if (cleared !== undefined) return CLEARED[cleared].replace('PART', part);
  const until = cureOf(found) === 'tightened' ? 'tightened or replaced' : 'replaced';
  return `Do not fire, turn or release until it is ${until}`;
}

const CLEARED: Readonly<Record<Cleared, string>> = {
  replaced: 'It was replaced',
  tightened: 'It was tightened',
  'found clean': 'It was found clean later, with the reason in a note',
  gone: 'The machine no longer has PART',
};
