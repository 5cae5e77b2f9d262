/** What to do now, as every view says it: while the marks cell at the end has blanks, to fill them in. */
import { listed } from '../../words/index.ts';
import { asksIn, asksInWords } from '../book/closed-advice.ts';
import type { Step } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { blanksAtEnd } from '../book/mark-slots.ts';
import { readingSentence, sentenceOf, type Sentence } from './sentence.ts';
import { adviceInFull, shortAdvice, stepsNow } from './step-hint.ts';

export interface AdviceNow extends Sentence {
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
  const evaluation = book.evaluation();
  if (book.isAdviceClosed() && (evaluation.steps.length === 0 || blanksAtEnd(book))) return closedAdvice(book);
  const blanks = evaluation.verdict === 'continue' ? blanksAtEnd(book) : undefined;
  if (!blanks) {
    const [brief, steps] = [shortAdvice(evaluation), stepsNow(evaluation)];
    return { ...sentenceOf(evaluation, steps, brief), brief, full: adviceInFull(book), steps };
  }
  const { station, blank, count } = blanks;
  const what = `${station} ${listed(blank.map(({ label }) => label))}`;
  return {
    ...readingSentence(station, blank, count),
    brief: `next: fill in ${what}`,
    full: `Read the tapes and fill in their marks: ${what}. Enter \`none\` where the beam missed the tape.`,
    steps: [],
    station,
  };
}

/** On a practice machine the learner chooses the step. */
function closedAdvice(book: Book): AdviceNow {
  const blanks = blanksAtEnd(book);
  const isWithin = book.evaluation().verdict === 'within';
  const asked = asksInWords(asksIn(book.workbook.entries));
  const own = 'The advice is closed: choose the screw, the way and the amount, or what to shoot.';
  const words: Sentence = blanks
    ? {
        ...readingSentence(blanks.station, blanks.blank, blanks.count),
        then: ['Write what you expect, fire, then read the middle of the burn.'],
      }
    : isWithin
      ? { sentence: 'Within, as your marks have it', then: ['The closing sheet shows whether it is, truly.'] }
      : { sentence: 'Your choice', then: [own] };
  return {
    ...words,
    brief: `PRACTICE: ${words.sentence.charAt(0).toLowerCase()}${words.sentence.slice(1)}`,
    full: `PRACTICE: this machine is simulated. ${blanks ? words.then.join(' ') : own} ${asked}`,
    steps: [],
    ...(blanks && { station: blanks.station }),
  };
}
