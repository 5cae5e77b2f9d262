/** Logs the advised step: appends its cells, with blanks for the marks to fill in. */
import { appendCells } from '../../cells/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';
import { adviceNow } from '../hints/advice-now.ts';
import { shortStep } from '../hints/step-hint.ts';

/** The change that logs the advised step. */
export interface AddedStep {
  readonly title: string;
  readonly change: Change;
  /** Offset in the new text: of the first blank, or the end of the last cell. */
  readonly cursor: number;
}

/** Undefined if there is no step to log. The book must be up to date. */
export function addStep(book: Book): AddedStep | undefined {
  const evaluation = book.evaluation();
  const { steps } = adviceNow(book);
  const cells = steps.flatMap(({ cell }) => (cell === undefined ? [] : [cell]));
  if (cells.length === 0) return undefined;
  const { text } = book;
  // Cells are only appended: the existing text is not changed.
  const whole = appendCells(text, cells);
  const end = text.length;
  const added = whole.slice(end);
  const blank = /: (?=\r?\n|\}|$)/.exec(added);
  return {
    title: `Log step: ${steps.map((step) => shortStep(step, evaluation)).join('; ')}`,
    change: { start: end, end, text: added },
    cursor: blank ? end + blank.index + blank[0].length : whole.length,
  };
}
