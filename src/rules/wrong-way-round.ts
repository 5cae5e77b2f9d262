/**
 * A lens that was refitted the wrong way round, or with a flat side that its shape does not have: reported at the care
 * cell while it can still be turned.
 */
import { findingAt, isVertical, pathTo, type Finding, type LogEntry } from '../model/index.ts';
import { opposite } from '../optics/index.ts';
import type { State } from '../estimate/index.ts';
import { station, type Station } from '../machine/index.ts';

export function wrongWayRound(logged: LogEntry, { system }: State): Finding | undefined {
  const { entry } = logged;
  const noted = entry.kind === 'care' ? entry.refit?.['flat side'] : undefined;
  const lens = entry.kind === 'care' && noted !== undefined && system ? station(system, entry.part) : undefined;
  const mistake = lens && isVertical(lens.runs) ? mistakeIn(lens, noted!) : undefined;
  return lens && mistake !== undefined
    ? findingAt(logged, pathTo('refit', 'flat side'), 'care.refit', { part: lens.name, how: mistake })
    : undefined;
}

/** The curved side meets the beam. Equal faces may go either way. */
function mistakeIn({ element: { shape = 'plano-convex' }, runs }: Station, flat: string): string | undefined {
  if (shape === 'meniscus')
    return `a meniscus has no flat side; its bulge meets the beam, so it goes ${opposite(runs)}`;
  return shape === 'plano-convex' && flat !== runs
    ? `the flat side goes toward the work, ${runs}, and the curved side meets the beam`
    : undefined;
}
