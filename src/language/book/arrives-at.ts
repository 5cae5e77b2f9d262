/** The direction of the beam that arrives at an element. */
import type { Direction, Machine } from '../../model/index.ts';

export function arrivesAt({ source, path }: Machine, name: string): Direction | undefined {
  let runs = source.fires;
  for (const element of path) {
    if (element.name === name) return runs;
    runs = element.sends ?? runs;
  }
  return undefined;
}
