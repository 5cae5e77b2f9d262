/** The findings of the workbook, and those that are silenced. */
import { outlineOf, type Book } from '../language/index.ts';
import { message, severity, type Finding } from '../model/index.ts';
import { table, type Block } from './blocks.ts';

export function openPoints(book: Book): Block[] {
  const rows = book.findings().map((finding) => [String(lineOf(book, finding)), severity(finding), message(finding)]);
  return rows.length === 0 ? [{ kind: 'text', text: 'None.' }] : table(['line', '', 'what'], rows);
}

/** With the written reason, the number of findings that each silences, and their cells. */
export function rulesOff(book: Book): Block[] {
  const cells = outlineOf(book, false);
  const rows = book
    .silencings()
    .map(({ code, reason, at, silenced }) => [
      code,
      at ? `at line ${lineOf(book, at)}` : 'the whole workbook',
      reason,
      silenced.length === 0
        ? 'nothing'
        : `${silenced.length}: ${silenced.map((finding) => placeOf(book, cells, finding)).join('\n')}`,
    ]);
  return rows.length === 0 ? [{ kind: 'text', text: 'None.' }] : table(['rule', 'where', 'reason', 'silenced'], rows);
}

/** `line 34, marks M2` */
function placeOf(book: Book, cells: ReturnType<typeof outlineOf>, finding: Finding): string {
  const offset = offsetOf(book, finding);
  const name = cells.findLast(({ start }) => start <= offset)?.name;
  return `line ${lineOf(book, finding)}${name === undefined ? '' : `, ${name}`}`;
}

function offsetOf({ split }: Book, { cell, span }: Pick<Finding, 'cell' | 'span'>): number {
  return (split.cells[cell]?.start ?? 0) + span.start;
}

/** From 1. */
function lineOf(book: Book, at: Pick<Finding, 'cell' | 'span'>): number {
  return book.text.slice(0, offsetOf(book, at)).split('\n').length;
}
