/**
 * Screws at the end of their travel: `no further: {B: in}` is valid until the screw is turned the other way, the part
 * is replaced, or another machine cell applies.
 */
import type { AdjustEntry, Entry } from '../model/index.ts';
import { screwKey, type System } from '../machine/index.ts';

/** By `screwKey`: the direction in which it goes no further. */
export type Ends = ReadonlyMap<string, 'in' | 'out'>;

export const NO_ENDS: Ends = new Map();

/** @param systems those in force before and after the entry */
export function endsAfter(
  before: Ends,
  entry: Entry,
  systems: { readonly before: System | undefined; readonly after: System | undefined },
): Ends {
  if (systems.before !== systems.after) return NO_ENDS;
  switch (entry.kind) {
    case 'adjust':
      return adjusted(before, entry);
    case 'care':
      return entry.did === 'replaced'
        ? new Map([...before].filter(([key]) => !key.startsWith(screwKey(entry.part, ''))))
        : before;
    default:
      return before;
  }
}

/** The turns of the cell come first, then the end of travel. */
function adjusted(before: Ends, { part, turns, noFurther = {} }: AdjustEntry): Ends {
  const freed = Object.entries(turns).filter(
    ([screw, amount]) => before.get(screwKey(part, screw)) === (amount < 0 ? 'in' : 'out') && amount !== 0,
  );
  const stopped = Object.entries(noFurther);
  if (freed.length === 0 && stopped.length === 0) return before;
  const ends = new Map(before);
  for (const [screw] of freed) ends.delete(screwKey(part, screw));
  for (const [screw, direction] of stopped) ends.set(screwKey(part, screw), direction);
  return ends;
}

/** @param sign of the turn: 1 in, −1 out */
export function canTurn({ ends }: { readonly ends: Ends }, part: string, screw: string, sign: 1 | -1): boolean {
  return ends.get(screwKey(part, screw)) !== (sign > 0 ? 'in' : 'out');
}
