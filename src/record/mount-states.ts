/** States of mounts that are no moves: lock nuts as found, and screws at their end. */
import type { AdjustEntry } from '../model/index.ts';
import type { Block } from './blocks.ts';
import { isWork } from './done.ts';
import type { Visit } from './visit.ts';

export function mountStates({ entries }: Visit): Block[] {
  const items = entries.flatMap(({ entry }) => (entry.kind === 'adjust' ? statesIn(entry) : []));
  return items.length === 0 ? [] : [{ kind: 'list', items }];
}

/** Includes the note of a cell that contains only states; otherwise the note is printed with the moves. */
function statesIn(entry: AdjustEntry): string[] {
  const { part, foundLock, noFurther = {}, note } = entry;
  const states = [
    ...(foundLock ? [`Lock nuts of ${part} found ${foundLock}`] : []),
    ...Object.entries(noFurther).map(
      ([screw, way]) => `Screw ${screw} of ${part} is at its end: it goes no further ${way}`,
    ),
  ];
  const suffix = !isWork(entry) && note !== undefined ? ` (${note.trim()})` : '';
  return states.map((state) => `${state}${suffix}.`);
}
