/** How wide the beam is on a tape, wherever the carriages stand. */
import { lookup, type Machine, type Quantity, type Reading } from '../model/index.ts';
import { tubeOf } from './tube.ts';
import { widthsOn } from './way.ts';

/** 1/e² diameter, mm, with each carriage at its leg of a reading; undefined where the machine does not say enough. */
export function diameterOn(machine: Machine, station: string, carriages: Reading['carriages']): number | undefined {
  const tube = tubeOf(machine.source);
  const upTo = machine.path.findIndex(({ name }) => name === station) + 1;
  const legs = machine.path.slice(0, upTo).flatMap(({ name, leg }): Quantity[] => {
    const value = leg?.value ?? lookup(carriages, name);
    return value === undefined ? [] : [{ value }];
  });
  if (typeof tube === 'string' || upTo === 0 || legs.length < upTo) return undefined;
  const { diameter } = widthsOn(machine, tube, legs).at(-1)!;
  return Number.isFinite(diameter) ? diameter : undefined;
}
