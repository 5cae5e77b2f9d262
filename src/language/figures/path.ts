/** The beam's path through the machine, as the log has it now and after what is advised. */
import type { PathFigure } from '../../model/index.ts';
import type { Book } from '../book.ts';

/**
 * Undefined where there is no machine.
 *
 * @param legs where carriages are to stand, mm, by the element that rides; one that is not named stands at its farthest
 */
export function pathFigure(book: Book, legs: Readonly<Record<string, number>> = {}): PathFigure | undefined {
  const path = book.log.beamPath(legs);
  return path && { kind: 'path', ...path };
}
