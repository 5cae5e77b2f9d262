/** Other measurements of the visit, by name and place: as found, as left, and the limits in force. */
import { resultInWords, unitsAt, type Book } from '../language/index.ts';
import {
  isOutside,
  limitFor,
  nextMeasured,
  measureLimitInWords,
  NOTHING_MEASURED,
  type Measurements,
  type MeasuredValue,
  type MeasureEntry,
  type MeasureLimit,
} from '../model/index.ts';
import { table, type Block } from './blocks.ts';
import type { Visit } from './visit.ts';

interface Reading {
  readonly entry: MeasureEntry;
  readonly value: MeasuredValue;
  readonly limit: MeasureLimit | undefined;
}

export function measuredTable(book: Book, { entries }: Visit): Block[] {
  const units = unitsAt(book);
  const from = entries[0]?.index ?? 0;
  const readings = readingsIn(book, from);
  const rows = [...readings.values()].map((all) => {
    const [first, last] = [all[0]!, all.at(-1)!];
    const inWords = ({ entry, value: { value, u }, limit }: Reading) => {
      const words = resultInWords({ value, kind: entry.dimension, ...(u !== undefined && { u }) }, units);
      return isOutside({ value }, limit) ? `${words}, outside` : words;
    };
    return [
      first.entry.name,
      first.value.place ?? '',
      inWords(first),
      all.length === 1 ? 'the same' : inWords(last),
      last.limit ? measureLimitInWords(last.limit, last.entry.dimension, units) : 'none',
      all.findLast(({ entry }) => entry.with !== undefined)?.entry.with ?? '',
    ];
  });
  return table(['what', 'place', 'as found', 'as left', 'limits', 'with'], rows);
}

/** From the entry `from` on, by name and place; limits may come from any cell above. */
function readingsIn(book: Book, from: number): ReadonlyMap<string, readonly Reading[]> {
  const readings = new Map<string, Reading[]>();
  let measured: Measurements = NOTHING_MEASURED;
  book.workbook.entries.forEach(({ entry }, index) => {
    if (entry.kind === 'measure' && index >= from) {
      const limit = limitFor(measured, entry);
      for (const value of entry.values) {
        const key = JSON.stringify([entry.name, value.place]);
        readings.set(key, [...(readings.get(key) ?? []), { entry, value, limit }]);
      }
    }
    measured = nextMeasured(measured, entry, false);
  });
  return readings;
}
