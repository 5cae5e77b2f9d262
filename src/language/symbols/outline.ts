/** The outline of the log: one item for each cell, with its date, subject and result. */
import { shiftInWords } from '../../words/index.ts';
import { CELL_KINDS } from '../../workbook/index.ts';
import { pathTo, ROOT, turnInCell, type Entry, type Kind, type StationReport } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf, type IndexedEntry } from '../book/entries-of.ts';
import { inOneLine } from '../words/in-one-line.ts';
import { unitsAt } from '../book/units-of.ts';
import { resultInWords } from '../hints/result-hints.ts';
import { shortState } from '../words/station-words.ts';

/** One line of the outline. */
export interface OutlineItem {
  readonly name: string;
  readonly detail: string;
  readonly kind: Kind | 'unread';
  /** Offsets in the file: of the whole cell, and of its head. */
  readonly start: number;
  readonly end: number;
  readonly from: number;
  readonly to: number;
}

/** @param withVerdicts the verdict of each marks cell costs more than the rest */
export function outlineOf(book: Book, withVerdicts = true): OutlineItem[] {
  return book.split.cells.flatMap((cell, index): OutlineItem[] => {
    const logged = entriesOf(book, index)[0];
    if (!logged) return [];
    const { entry } = logged;
    const kind = entry.kind === 'unread' ? entry.of : entry.kind;
    const head = (kind && entry.spans[pathTo(kind)]) ?? entry.spans[ROOT] ?? { start: 0, end: 0 };
    const end = cell.start + cell.text.trimEnd().length;
    return [
      {
        name: nameOf(entry),
        detail: [entry.date, detailOf(book, logged, withVerdicts)].filter(Boolean).join(' · '),
        kind: entry.kind,
        start: cell.start,
        end: Math.max(end, cell.start + head.end),
        from: cell.start + head.start,
        to: cell.start + head.end,
      },
    ];
  });
}

/** `marks M2` */
function nameOf(entry: Entry): string {
  if (entry.kind === 'unread') return [entry.of ?? 'cell', entry.part].filter(Boolean).join(' ');
  return inOneLine([entry.kind, CELL_KINDS[entry.kind].about(entry)].filter(Boolean), ' ');
}

function verdict(report: StationReport | undefined): string {
  return report ? shortState(report.state) : '';
}

function detailOf(book: Book, { entry, index, cell }: IndexedEntry, withVerdicts: boolean): string {
  switch (entry.kind) {
    case 'marks':
      return withVerdicts ? verdict(book.log.report(entry.station, index + 1)) : '';
    case 'adjust':
      return [
        ...Object.entries(entry.turns).map(([screw, turns]) => `${screw} ${turnInCell(turns)}`),
        entry.shift && shiftInWords(entry.shift.by, unitsAt(book, cell)),
        entry.lock,
        entry.foundLock && `found ${entry.foundLock}`,
        ...Object.entries(entry.noFurther ?? {}).map(([screw, way]) => `${screw} no further ${way}`),
      ]
        .filter(Boolean)
        .join(', ');
    case 'care':
      return [entry.found, entry.did].filter(Boolean).join(', ');
    case 'measure':
      return inOneLine(
        entry.values.map(({ place, value, u }) =>
          [place, resultInWords({ value, kind: entry.dimension, ...(u !== undefined && { u }) }, unitsAt(book, cell))]
            .filter(Boolean)
            .join(' '),
        ),
        ', ',
      );
    case 'unread':
      return 'cannot be read';
    case 'machine':
    case 'limits':
    case 'session':
    case 'power':
    case 'event':
    case 'checks':
    case 'note':
    case 'work':
    case 'release':
      return '';
  }
}
