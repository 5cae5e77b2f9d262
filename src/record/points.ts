/** What the tool still says about the workbook, and what it was told not to say. */
import { outlineOf, type Book } from '../language/index.ts';
import { message, severity, type Finding } from '../model/index.ts';
import { table, type Block } from './blocks.ts';

export function openPoints(book: Book): Block[] {
  const found = book.findings().map((finding) => [String(lineOf(book, finding)), severity(finding), message(finding)]);
  return found.length === 0 ? [{ kind: 'text', text: 'None.' }] : table(['line', '', 'what'], found);
}

/** With the reason that was written, and what each kept silent: how many findings, and in which cells. */
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
