/** The advised step, written into the log: the cells of what is done, and the marks to fill in. */
import { appendCells } from '../../cells/index.ts';
import type { Book } from '../book/book-type.ts';
import type { Change } from '../fixes/fix.ts';
import { stepInBrief, stepsNow } from '../hints/step-hint.ts';

export interface AddedStep {
  readonly title: string;
  readonly change: Change;
  /** Offset in the file as it is then: where the first thing is to be filled in, or behind the last cell. */
  readonly cursor: number;
}

export function addStep(book: Book): AddedStep | undefined {
  const evaluation = book.evaluation();
  const steps = stepsNow(evaluation);
  const cells = steps.flatMap(({ cell }) => (cell === undefined ? [] : [cell]));
  if (cells.length === 0) return undefined;
  const { text } = book;
  // What is there already stays as it is: cells only come after it.
  const whole = appendCells(text, cells);
  const kept = text.length;
  const added = whole.slice(kept);
  const blank = /: (?=\r?\n|\}|$)/.exec(added);
  return {
    title: `Log step: ${steps.map((step) => stepInBrief(step, evaluation)).join('; ')}`,
    change: { start: kept, end: kept, text: added },
    cursor: blank ? kept + blank.index + blank[0].length : whole.length,
  };
}
