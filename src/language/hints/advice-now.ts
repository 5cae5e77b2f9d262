/**
 * What to do now, as every view says it: while the marks cell at the end has blanks, to fill them in; near an even
 * chance, the two ways to choose from; on a practice machine, whose advice is closed, that the step is the learner's.
 */
import { listed, percent } from '../../words/index.ts';
import { asksIn, asksInWords } from '../book/closed-advice.ts';
import type { Evaluation, Step, TwoWays } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { blanksAtEnd } from '../book/mark-slots.ts';
import { cautionsFor, wavelengthOf } from '../words/cautions-for.ts';
import { readingSentence, sentenceOf, type Sentence } from './sentence.ts';
import { adviceInFull, shortStep, stepsNow } from './step-hint.ts';

export interface AdviceNow extends Sentence {
  /** Why, the cautions, and each step. */
  readonly full: string;
  /** The steps up to the next shot; none while blanks are to be filled in: their step is logged. */
  readonly steps: readonly Step[];
  /** The station of the blanks, and their places. */
  readonly station?: string;
  readonly blanks?: readonly string[];
  /** Near an even chance: what can be done, each with its cost. */
  readonly ways?: readonly [Way, Way];
}

/** One of two ways to go on. */
export interface Way {
  /** `shoot M3 again (4 tapes)` */
  readonly brief: string;
  /** What it costs and what comes of it, in a sentence. */
  readonly say: string;
  readonly steps: readonly Step[];
  readonly kind: 'again' | 'turn';
  /** `over 16` */
  readonly tapes: string;
  /** What comes of it: `within: 97 %` */
  readonly outcome: string;
}

/** The book must be up to date. */
export function adviceNow(book: Book): AdviceNow {
  const evaluation = book.evaluation();
  if (book.isAdviceClosed() && (evaluation.steps.length === 0 || blanksAtEnd(book))) return closedAdvice(book);
  const blanks = evaluation.verdict === 'continue' ? blanksAtEnd(book) : undefined;
  if (!blanks) return choiceOf(book, evaluation) ?? adviceOf(book, evaluation);
  const { station, blank, count } = blanks;
  const labels = blank.map(({ label }) => label);
  return {
    ...readingSentence(station, blank, count),
    full: `Read the tapes and fill in their marks: ${station} ${listed(labels)}. Enter \`none\` where the beam missed the tape.`,
    steps: [],
    station,
    blanks: labels,
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
    full: `PRACTICE: this machine is simulated. ${blanks ? words.then.join(' ') : own} ${asked}`,
    steps: [],
    ...(blanks && { station: blanks.station, blanks: blanks.blank.map(({ label }) => label) }),
  };
}
function adviceOf(book: Book, evaluation: Evaluation): AdviceNow {
  const steps = stepsNow(evaluation);
  return { ...sentenceOf(evaluation, steps), full: adviceInFull(book), steps };
}

/** Both ways, in the same form; `steps` are those of the advice. */
function choiceOf(book: Book, evaluation: Evaluation): AdviceNow | undefined {
  const { ways: even } = evaluation;
  const ways = waysInWords(evaluation);
  if (!even || !ways) return undefined;
  const { lines } = cautionsFor(
    ways.flatMap(({ steps }) => steps),
    wavelengthOf(book),
  );
  return {
    sentence: `${even.station} is borderline: choose`,
    then: ways.map(({ say }) => say),
    full: [
      `The marks on ${even.station} are within limits with a probability of ${percent(even.probability)}. Choose one:`,
      ...ways.map(({ say }, k) => `${k + 1}. ${say}`),
      lines.join(' '),
    ].join('\n\n'),
    steps: stepsNow(evaluation),
    ways,
  };
}

/** Shooting again, and turning at once. */
export function waysInWords(evaluation: Evaluation): readonly [Way, Way] | undefined {
  const { ways } = evaluation;
  return ways && [again(ways), turned(ways, evaluation)];
}

function again({ station, again: { step, tapes, isEnough } }: TwoWays): Way {
  return {
    brief: `shoot ${station} again (${isEnough ? '' : 'over '}${tapesInWords(tapes)})`,
    say: isEnough
      ? `Shoot again: ${tapesInWords(tapes)} in all ${tapes === 1 ? 'shows' : 'show'} that ${station} is within, if the marks stay where they are.`
      : `Shoot again: ${tapesInWords(tapes)} would still not show whether ${station} is within.`,
    steps: [step],
    kind: 'again',
    tapes: `${isEnough ? '' : 'over '}${tapes}`,
    outcome: isEnough ? 'shown to be within, if the marks stay' : 'still borderline, if the marks stay',
  };
}

function turned({ station, turn: { steps, chance, tapes } }: TwoWays, evaluation: Evaluation): Way {
  const turns = steps.filter(({ kind }) => kind !== 'shoot').map((step) => shortStep(step, evaluation));
  return {
    brief: `${turns.join('; ')} (${percent(chance)})`,
    say: `Turn now: ${turns.join('; ')}. The probability that ${station} is within is then ${percent(chance)}; ${tapesInWords(tapes)} ${tapes === 1 ? 'shows' : 'show'} it.`,
    steps,
    kind: 'turn',
    tapes: `${tapes}`,
    outcome: `within: ${percent(chance)} (${turns.join('; ')})`,
  };
}

function tapesInWords(tapes: number): string {
  return `${tapes} ${tapes === 1 ? 'tape' : 'tapes'}`;
}
