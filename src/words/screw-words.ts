/** A screw by its name and its corner, because the names are not on the mount. */
import { cornerOf, type MountDescription } from '../model/index.ts';

interface Screws {
  readonly screws: readonly { readonly part: string; readonly screw: string; readonly mount: MountDescription }[];
}

/** `A (upper left)`; the name alone if the workbook does not give its place. */
export function screwInWords(of: Screws, part: string, screw: string): string {
  const place = of.screws.find((candidate) => candidate.part === part && candidate.screw === screw);
  const corner = place && cornerOf(place.mount, screw);
  return corner === undefined ? screw : `${screw} (${corner})`;
}
