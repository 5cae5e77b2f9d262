/** Screws at the end of their travel, in words. */
import type { Ends } from '../estimate/index.ts';
import { screwKey, type System } from '../machine/index.ts';
import { screwInWords, listed } from '../words/index.ts';

/**
 * `screw B (lower right) of M1 goes no further in`, of the mirrors before a station; undefined if every screw can turn
 * both ways.
 */
export function endsInWords({ ends }: { readonly ends: Ends }, system: System, station: number): string | undefined {
  const stopped = system.screws.flatMap(({ part, screw, mirror }) => {
    const way = mirror < station ? ends.get(screwKey(part, screw)) : undefined;
    return way === undefined ? [] : [`screw ${screwInWords(system, part, screw)} of ${part} goes no further ${way}`];
  });
  return stopped.length === 0 ? undefined : listed(stopped);
}
