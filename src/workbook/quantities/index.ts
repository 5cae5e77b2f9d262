/**
 * Readers of scalars: quantities, directions, marks, dates and names. Every reader is pure, returns a value or
 * problems, and takes bounded time; offsets are in the scalar's text.
 */
export { createCalculator, type Calculator } from './calculator.ts';
export { combinedUncertainty, summed, type Components } from './components.ts';
export { expressions } from './expressions.ts';
export { readDate, type WrittenDate } from './date.ts';
export type { DirectedLength } from './directed.ts';

export { readHours } from './hours.ts';
export { readInterval } from './interval.ts';
export type { CareInterval as Interval, Quantity as Measured } from '../../model/index.ts';
export type { Names } from './items.ts';
export { readMark, SHAPES, type ClockPlace, type Shape, type Mark } from './mark.ts';
export type { Must, QuantityContext } from './measured.ts';
export { QUANTITY_CODES, type QuantityCode, type QuantityProblem, type Reading } from './reading.ts';
export { resolveMark, type ResolvedMark, type ViewingSide } from './resolve-mark.ts';
export {
  readAngle,
  readExpression,
  readFraction,
  readLength,
  readNumber,
  readPower,
  readPulsePower,
  readQuantity,
  readTime,
  type Measurement,
  type Result,
} from './scalars.ts';
export { readName } from './name.ts';
export { readPhotoPath, readSha256 } from './photo.ts';
export { readShift, type Shift } from './shift.ts';
export { readTurn, signedTurns, type Turn } from './turn.ts';
export { dimensionName, isReserved, type Dimension, type Dimensioned } from './units.ts';
