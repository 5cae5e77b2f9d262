/** A screw by its name and its corner: the names are on paper, the hand is at the mount. */
import { cornerOf } from '../model/index.ts';
import type { System } from './system.ts';

/** `A (upper left)`; the name alone where nobody has written down where it bears. */
export function screwInWords(of: System, part: string, screw: string): string {
  const place = of.screws.find((candidate) => candidate.part === part && candidate.screw === screw);
  const corner = place && cornerOf(place.mount, screw);
  return corner === undefined ? screw : `${screw} (${corner})`;
}
