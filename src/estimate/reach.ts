/** How far a cell that cannot be read may have moved things: a wrong "within" costs a lens, another shot a minute. */
import type { UnreadEntry } from '../model/index.ts';
import { TUBE, station, type System } from '../machine/index.ts';

/** A part, with what comes after it; one station's own marks; everything; or nothing. */
export type Reach = { readonly part: string } | { readonly station: string } | 'everything' | 'nothing';

export function reachOf({ of, part }: UnreadEntry, system: System): Reach {
  switch (of) {
    case 'adjust':
    case 'care':
      return part !== undefined && (part === TUBE || station(system, part)) ? { part } : 'everything';
    case 'marks':
      return part !== undefined && station(system, part) ? { station: part } : 'everything';
    case 'machine':
    case 'event':
    case 'session':
    case undefined:
      return 'everything';
    default:
      return 'nothing';
  }
}
