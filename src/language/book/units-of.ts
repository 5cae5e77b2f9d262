/** The units in which results of a workbook's machine are shown. */
import type { Evaluation, Units } from '../../model/index.ts';
import type { Book } from './book-type.ts';
import { machineAt } from './machine-at.ts';

/** Where no machine is described nothing has a length. */
export function unitsOf({ stations }: Pick<Evaluation, 'stations'>): Units {
  return stations[0]?.frame.units ?? 'mm';
}

/** @param cell of the machine in force there; the last one where it is left out */
export function unitsAt(book: Book, cell = Infinity): Units {
  return machineAt(book, cell)?.units ?? 'mm';
}
