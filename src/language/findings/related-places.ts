/**
 * Other places that a finding refers to: the machine of an unknown name, the limit or the aperture that is exceeded.
 */
import { firstAt } from '../../cells/index.ts';
import { pathTo, type Finding, type Kind, type LogEntry, type Path, type Span } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { entriesOf } from '../book/entries-of.ts';

/** A place with a message, in offsets of its cell. */
export interface RelatedPlace {
  readonly cell: number;
  readonly span: Span;
  readonly message: string;
}

/** The other places of a finding; empty for most codes. */
export function relatedPlaces(book: Book, finding: Finding): RelatedPlace[] {
  const above = (kind: Kind) => book.last(kind, Math.max(finding.cell, 0));
  switch (finding.code) {
    case 'name.unknown':
    case 'turn.knob':
    case 'mark.words':
      return at(above('machine'), [pathTo('path'), pathTo('machine')], 'The machine in force here');
    case 'mark.outside':
      return at(above('machine'), aperturePaths(book, finding), 'The aperture that the tape covers');
    case 'log.noLimits':
      return at(above('limits'), [pathTo('stations'), pathTo('limits')], 'The limits in force here');
    case 'log.height':
      return [
        ...at(
          above('limits'),
          [pathTo('stations', finding.facts['station']!), pathTo('stations')],
          'The limit that is exceeded',
        ),
        ...at(
          above('machine'),
          [pathTo('path', finding.facts['station']!), pathTo('path'), pathTo('from')],
          'The station concerned',
        ),
      ];
    case 'date.order':
      return at(datedBefore(book, finding), [pathTo('date')], 'The date before it');
    default:
      return [];
  }
}

function datedBefore(book: Book, { cell }: Finding): LogEntry | undefined {
  const { entries } = book.workbook;
  let index = firstAt(entries, cell) - 1;
  while (index >= 0 && entries[index]!.entry.date === undefined) index--;
  return entries[index];
}

function aperturePaths(book: Book, { cell }: Finding): Path[] {
  const entry = entriesOf(book, cell).find((logged) => logged.entry.kind === 'marks')?.entry;
  return entry?.kind === 'marks'
    ? [pathTo('path', entry.station, 'aperture'), pathTo('path'), pathTo('from')]
    : [pathTo('path')];
}

/** At the first of these paths that has a span. */
function at(logged: LogEntry | undefined, paths: readonly Path[], message: string): RelatedPlace[] {
  if (!logged) return [];
  const path = paths.find((one) => Object.hasOwn(logged.entry.spans, one));
  return path === undefined ? [] : [{ cell: logged.cell, span: logged.entry.spans[path]!, message }];
}
