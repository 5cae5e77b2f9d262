/**
 * What the shape of a mark shows (common practice): a double mark is made by a loose or cracked optic or by a tube that
 * is not in its lowest mode, a crescent by something that clips the beam upstream. The centre of such a mark does not
 * show where the beam is.
 */
import type { Mark, Reading } from '../model/index.ts';
import { grouped } from '../machine/index.ts';

type Shape = NonNullable<Mark['shape']>;
/** Shapes whose centre does not show where the beam is. */
export type Doubtful = Extract<Shape, 'crescent' | 'double'>;

/** In order of severity. */
const WORST: readonly Shape[] = ['round', 'oval', 'crescent', 'double'];

/** The worst shape and the largest size (mm) among the marks of one shot; absent where none was written. */
export function worstShape(marks: readonly Mark[]): Pick<Mark, 'shape' | 'size'> {
  const shape = WORST.findLast((one) => marks.some((mark) => mark.shape === one));
  const sizes = marks.flatMap(({ size }) => size ?? []);
  return { ...(shape && { shape }), ...(sizes.length > 0 && { size: Math.max(...sizes) }) };
}

/** Whether a mark of this shape does not show where the beam is. */
export function isDoubtful(shape: Shape | undefined): shape is Doubtful {
  return shape === 'crescent' || shape === 'double';
}

/**
 * The readings that leave a station in doubt: those of the newest cell at a place of the carriages, where one of them
 * is double or a crescent. Tapes below the lens are one place, whatever their heights.
 *
 * @param readings in the order of the log, those that are still valid
 */
export function shapeDoubts<T extends Reading>(readings: readonly T[]): readonly T[] {
  return grouped(readings, ({ carriages, height }) => JSON.stringify([carriages, height > 0])).flatMap((some) => {
    const { cell } = some.at(-1)!;
    return some.filter((reading) => reading.cell === cell && isDoubtful(reading.shape));
  });
}
