/** What a cell with errors may have moved. A wrong "within" costs a lens, another shot a minute. */
import { unreadReach, type UnreadEntry } from '../model/index.ts';
import { TUBE, station, type System } from '../machine/index.ts';

/** A part and every station after it; the marks of one station; everything; or nothing. */
export type Reach = { readonly part: string } | { readonly station: string } | 'everything' | 'nothing';

/** What a cell with errors counts as having moved on this machine. */
export function unreadReachOn({ of, part }: UnreadEntry, system: System): Reach {
  const reach = unreadReach(of);
  switch (reach) {
    case 'part':
      return part !== undefined && (part === TUBE || station(system, part)) ? { part } : 'everything';
    case 'station':
      return part !== undefined && station(system, part) ? { station: part } : 'everything';
    // Between two visits anything may have happened.
    case 'visit':
    case 'everything':
      return 'everything';
    case 'limits':
    case 'nothing':
      return 'nothing';
  }
}
