/** Corrects an implausible length to the value that was probably meant. */
import type { Finding } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Fix } from './fix.ts';
import { unitsAt } from '../book/units-of.ts';

export function slipFixes(book: Book, finding: Finding): Fix[] {
  const { slip, numbers, factor } = finding.facts;
  const from = book.split.cells[finding.cell]?.start ?? 0;
  const [start, end] = [from + finding.span.start, from + finding.span.end];
  const text = book.text.slice(start, end);
  const other = unitsAt(book, finding.cell) === 'in' ? 'mm' : 'in';
  const meant =
    slip === 'unit'
      ? inUnit(text, other)
      : slip === 'decimal'
        ? withPoint(text, Number(factor), numbers === 'largest')
        : text;
  return meant === text ? [] : [{ title: `Write \`${meant}\``, changes: [{ start, end, text: meant }], finding }];
}

/** A number before its direction, or before `at` and the hour: only these are lengths of the mark or the shift. */
const LENGTH = /(\d+(?:\.\d+)?)(\s*(?:mm|in)?)(?=\s+(?:right|left|up|down|front|rear|at)\b)/g;

/** Adds this unit to numbers without one. */
function inUnit(text: string, unit: string): string {
  return text.replace(LENGTH, (whole, number: string, own: string) =>
    own.trim() === '' ? `${number} ${unit}` : whole,
  );
}

function withPoint(text: string, factor: number, largestOnly: boolean): string {
  const largest = Math.max(...[...text.matchAll(LENGTH)].map(([, number]) => Number(number)));
  return text.replace(LENGTH, (whole, number: string, own: string) =>
    largestOnly && Number(number) < largest ? whole : `${Number((Number(number) * factor).toPrecision(12))}${own}`,
  );
}
