/** The nominal layout of the machine that a workbook describes, for the trace. mm. */
import { legLength, type Carriages, type Layout } from '../optics/index.ts';
import type { Machine } from '../model/index.ts';

export function layoutOf({ source, path }: Machine): Layout {
  return {
    fires: source.fires,
    elements: path.map(({ name, kind, inset, leg, stops, sends }) => ({
      name,
      kind,
      inset,
      ...(leg && { leg: leg.value }),
      ...(stops && {
        stops: Object.fromEntries(Object.entries(stops).map(([stop, length]) => [stop, length.value])),
      }),
      ...(sends && { sends }),
    })),
  };
}

/** A carriage: the element that rides it, and the ends of its travel, mm. */
export interface Travel {
  readonly element: string;
  /** Index of the element in the path. */
  readonly index: number;
  readonly shortest: number;
  readonly longest: number;
}

/** The carriages in path order. */
export function travelsOf({ elements }: Layout): Travel[] {
  return elements.flatMap(({ name, stops }, index) => {
    const legs = Object.values(stops ?? {});
    return legs.length === 0 ? [] : [{ element: name, index, shortest: Math.min(...legs), longest: Math.max(...legs) }];
  });
}

/** How far along its travel a carriage stands: 0 at its shortest leg, 1 at its longest. */
export function alongTravel(layout: Layout, { index, shortest, longest }: Travel, carriages: Carriages): number {
  if (longest === shortest) return 0;
  return (legLength(layout.elements[index]!, carriages) - shortest) / (longest - shortest);
}
