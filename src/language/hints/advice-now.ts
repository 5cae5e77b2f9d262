/** What to do now, as every view says it: while the marks cell at the end has blanks, to fill them in. */
import { listed } from '../../words/index.ts';
import { asksIn } from '../book/closed-advice.ts';
import type { Step } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { blanksAtEnd } from '../book/mark-slots.ts';
import { adviceInFull, shortAdvice, stepsNow } from './step-hint.ts';

export interface AdviceNow {
  /** One line. */
  readonly brief: string;
  /** Why, the cautions, and each step. */
  readonly full: string;
  /** The steps up to the next shot; none while blanks are to be filled in: their step is logged. */
  readonly steps: readonly Step[];
  /** The station of the blanks. */
  readonly station?: string;
}

/** The book must be up to date. */
export function adviceNow(book: Book): AdviceNow {
  if (book.isAdviceClosed()) return closedAdvice(book);
  const evaluation = book.evaluation();
  const blanks = evaluation.verdict === 'continue' ? blanksAtEnd(book) : undefined;
  if (!blanks) return { brief: shortAdvice(evaluation), full: adviceInFull(book), steps: stepsNow(evaluation) };
  const what = `${blanks.station} ${listed(blanks.labels)}`;
  return {
    brief: `next: fill in ${what}`,
    full: `Read the tapes and fill in their marks: ${what}. Enter \`none\` where the beam missed the tape.`,
    steps: [],
    station: blanks.station,
  };
}

/** On a practice machine the learner chooses the step. */
function closedAdvice(book: Book): AdviceNow {
  const blanks = blanksAtEnd(book);
  const isWithin = book.evaluation().verdict === 'within';
  const what = blanks
    ? `fire and read ${blanks.station} ${listed(blanks.labels)}`
    : isWithin
      ? 'within'
      : 'your choice';
  const asks = asksIn(book.workbook.entries);
  return {
    brief: `PRACTICE: ${what}`,
    full: `PRACTICE: this machine is simulated. Choose the step yourself: the advice is closed. Asked for it ${asks === 1 ? 'once' : `${asks} times`}.`,
    steps: [],
    ...(blanks && { station: blanks.station }),
  };
}
