/** The beam's path through the machine, as the log has it now and after what is advised. */
import { diameterOn } from '../../light/index.ts';
import type { PathFigure } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';

/**
 * Undefined where there is no machine.
 *
 * @param legs where carriages are to stand, mm, by the element that rides; one that is not named stands at its farthest
 */
export function pathFigure(book: Book, legs: Readonly<Record<string, number>> = {}): PathFigure | undefined {
  const machine = machineAt(book, Infinity);
  const path = book.log.beamPath(legs, (station, carriages) => machine && diameterOn(machine, station, carriages));
  return path && { kind: 'path', ...path };
}
