/** The beam path through the machine, now and after the advised step. */
import { diameterOn } from '../../light/index.ts';
import type { PathFigure } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';

/**
 * Undefined without a machine.
 *
 * @param legs positions of carriages, mm, by the element that rides; others stand at their farthest
 */
export function pathFigure(book: Book, legs: Readonly<Record<string, number>> = {}): PathFigure | undefined {
  const machine = machineAt(book, Infinity);
  const path = book.log.beamPath(legs, (station, carriages) => machine && diameterOn(machine, station, carriages));
  return path && { kind: 'path', ...path };
}
