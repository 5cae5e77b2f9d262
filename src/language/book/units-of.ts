/** The units in which lengths of a workbook are shown. */
import type { Evaluation, Units } from '../../model/index.ts';
import type { Book } from './book-type.ts';
import { machineAt } from './machine-at.ts';

/** Millimetres if no machine is described: then there is no length to show. */
export function unitsOf({ stations }: Pick<Evaluation, 'stations'>): Units {
  return stations[0]?.frame.units ?? 'mm';
}

/** @param cell whose machine in force is used; absent: the last one */
export function unitsAt(book: Book, cell = Infinity): Units {
  return machineAt(book, cell)?.units ?? 'mm';
}
