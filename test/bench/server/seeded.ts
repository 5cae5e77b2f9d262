/**
 * A long workbook with a mistake near its start and one near its end, each behind a note on the same line: typed into
 * the note, a letter moves the mistake by one column, and the column of the finding identifies the version of the text.
 */
import { workbookOf } from '../workbook.ts';

export interface Place {
  /** Line of the cell that is typed into. */
  readonly line: number;
  /** Behind the note. */
  readonly character: number;
}

export interface Seeded {
  readonly text: string;
  readonly start: Place;
  readonly end: Place;
  /** Behind a number in the machine's own cell. */
  readonly machine: Place;
}

const BEFORE = '{marks: M2, shots: {near: 1 right 1 up}, note: read';
const CELL = `${BEFORE}, tape: wet}\n`;

export function seeded(count: number): Seeded {
  const cells = workbookOf(count - 2).split('---\n');
  cells.splice(5, 0, CELL);
  cells.splice(cells.length - 1, 0, CELL);
  const text = cells.join('---\n');
  const lines = text.split('\n');
  const at = (line: number, part: string): Place => ({ line, character: lines[line]!.indexOf(part) + part.length });
  return {
    text,
    start: at(lines.indexOf(CELL.trimEnd()), BEFORE),
    end: at(lines.lastIndexOf(CELL.trimEnd()), BEFORE),
    machine: at(
      lines.findIndex((line) => line.startsWith('  M1:')),
      'leg: 9',
    ),
  };
}
