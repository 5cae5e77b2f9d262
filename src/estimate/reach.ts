/** How far a cell that cannot be read may have moved things: a wrong "within" costs a lens, another shot a minute. */
import { unreadReach, type UnreadEntry } from '../model/index.ts';
import { TUBE, station, type System } from '../machine/index.ts';

/** A part, with what comes after it; one station's own marks; everything; or nothing. */
export type Reach = { readonly part: string } | { readonly station: string } | 'everything' | 'nothing';

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
