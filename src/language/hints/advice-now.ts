/** What to do now, as every view says it: while the marks cell at the end has blanks, to fill them in. */
import { listed } from '../../words/index.ts';
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
  /** The station of the blanks, and their places. */
  readonly station?: string;
  readonly blanks?: readonly string[];
}

/** The book must be up to date. */
export function adviceNow(book: Book): AdviceNow {
  const evaluation = book.evaluation();
  const blanks = evaluation.verdict === 'continue' ? blanksAtEnd(book) : undefined;
  if (!blanks) return { brief: shortAdvice(evaluation), full: adviceInFull(book), steps: stepsNow(evaluation) };
  const what = `${blanks.station} ${listed(blanks.labels)}`;
  return {
    brief: `next: fill in ${what}`,
    full: `Read the tapes and fill in their marks: ${what}. Enter \`none\` where the beam missed the tape.`,
    steps: [],
    station: blanks.station,
    blanks: blanks.labels,
  };
}
