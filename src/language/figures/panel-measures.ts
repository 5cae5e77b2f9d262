/** A station's marks against its limits: now, as predicted, and as found and as left in this visit. */
import {
  lengthsIn,
  visitsIn,
  type PanelChange,
  type PanelMeasure,
  type PanelOutlook,
  type Requirement,
  type StationReport,
  type TriedTurn,
  type Units,
} from '../../model/index.ts';
import { percent } from '../../words/index.ts';
import type { Book } from '../book/book-type.ts';
import { slopeInWords } from '../words/station-words.ts';

const MILLI = 1000;

/** `3.9` and `2.5 mm`; a plumb is an angle. */
function amounts(limit: Requirement['limit'], units: Units) {
  const { bare, given, read } = lengthsIn(units);
  return limit === 'plumb'
    ? {
        bare: (rad: number) => (rad * MILLI).toFixed(1),
        read: (rad: number) => `${(rad * MILLI).toFixed(1)} mrad`,
        given: (rad: number) => `${Number((rad * MILLI).toFixed(2))} mrad`,
      }
    : { bare, given, read };
}

/** `centre 3.9 of 2.5 mm`, then `slope 3.6 right 6.3 down (mrad, …)`. */
export function measuredAt(report: StationReport): PanelMeasure[] {
  const slope = slopeInWords(report);
  return [
    ...report.requirements.flatMap(({ limit, value, max, predicted }): PanelMeasure[] => {
      if (value === undefined) return [];
      const { bare, given } = amounts(limit, report.frame.units);
      return [{ words: `${limit} ${bare(value)} of ${given(max)}${predicted ? ', predicted' : ''}`, isLimit: true }];
    }),
    ...(slope ? [{ words: `${slope.name} ${slope.words}`, isLimit: false }] : []),
  ];
}

/** Now, and after these turns. Empty without limits. */
export function outlookAt(book: Book, report: StationReport, turns: readonly TriedTurn[]): PanelOutlook[] {
  const then = book.log.outlook(report.name, turns);
  if (!then) return [];
  return [
    ...report.requirements.map(({ limit, value, max }): PanelOutlook => {
      const { bare, given, read } = amounts(limit, report.frame.units);
      const predicted = then[limit];
      return {
        name: limit,
        now: value === undefined ? 'not shot' : read(value),
        then: predicted === undefined ? '' : `${bare(predicted)} of ${given(max)}`,
      };
    }),
    {
      name: 'within',
      now: report.probability === undefined ? '' : percent(report.probability),
      then: percent(then.probability),
    },
  ];
}

/** Each limit that was judged more than once in the last visit, station by station. */
export function changesIn(book: Book): PanelChange[] {
  const { entries } = book.workbook;
  const visit = visitsIn(entries).at(-1);
  if (!visit) return [];
  return book.evaluation().stations.flatMap(({ name }) => {
    const { found, left } = book.log.visit(name, { ...visit, until: entries.length });
    if (!found || !left || found.index === left.index) return [];
    return left.report.requirements.flatMap(({ limit, value, max }): PanelChange[] => {
      const before = found.report.requirements.find((one) => one.limit === limit)?.value;
      if (value === undefined || before === undefined) return [];
      const { bare, given } = amounts(limit, left.report.frame.units);
      return [
        {
          name: `${name} ${limit}`,
          found: before / max,
          left: value / max,
          words: { found: bare(before), left: bare(value), limit: given(max) },
        },
      ];
    });
  });
}
