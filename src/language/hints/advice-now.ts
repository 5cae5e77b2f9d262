/**
 * What to do now, as every view says it: while the marks cell at the end has blanks, to fill them in; near an even
 * chance, the two ways to choose from.
 */
import { listed, percent } from '../../words/index.ts';
import type { Evaluation, Step, TwoWays } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { blanksAtEnd } from '../book/mark-slots.ts';
import { cautionsFor, wavelengthOf } from '../words/cautions-for.ts';
import { adviceInFull, shortAdvice, shortStep, stepsNow } from './step-hint.ts';

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
  /** Near an even chance: what can be done, each with its cost. */
  readonly ways?: readonly Way[];
}

/** One of two ways to go on. */
export interface Way {
  /** `shoot M3 again (4 tapes)` */
  readonly brief: string;
  /** What it costs and what comes of it, in a sentence. */
  readonly say: string;
  readonly steps: readonly Step[];
}

/** The book must be up to date. */
export function adviceNow(book: Book): AdviceNow {
  const evaluation = book.evaluation();
  const blanks = evaluation.verdict === 'continue' ? blanksAtEnd(book) : undefined;
  if (!blanks) return choiceOf(book, evaluation) ?? adviceOf(book, evaluation);
  const what = `${blanks.station} ${listed(blanks.labels)}`;
  return {
    brief: `next: fill in ${what}`,
    full: `Read the tapes and fill in their marks: ${what}. Enter \`none\` where the beam missed the tape.`,
    steps: [],
    station: blanks.station,
    blanks: blanks.labels,
  };
}

function adviceOf(book: Book, evaluation: Evaluation): AdviceNow {
  return { brief: shortAdvice(evaluation), full: adviceInFull(book), steps: stepsNow(evaluation) };
}

/** Both ways, in the same form; `steps` are those of the advice. */
function choiceOf(book: Book, evaluation: Evaluation): AdviceNow | undefined {
  const { ways: even } = evaluation;
  if (!even) return undefined;
  const ways = [again(even), turned(even, evaluation)];
  const { lines } = cautionsFor(
    ways.flatMap(({ steps }) => steps),
    wavelengthOf(book),
  );
  return {
    brief: `choose: ${ways.map(({ brief }) => brief).join(' or ')}`,
    full: [
      `The marks on ${even.station} are within limits with a probability of ${percent(even.probability)}. Choose one:`,
      ...ways.map(({ say }, k) => `${k + 1}. ${say}`),
      lines.join(' '),
    ].join('\n\n'),
    steps: stepsNow(evaluation),
    ways,
  };
}

function again({ station, again: { step, tapes, isEnough } }: TwoWays): Way {
  return {
    brief: `shoot ${station} again (${isEnough ? '' : 'over '}${tapesInWords(tapes)})`,
    say: isEnough
      ? `Shoot again: ${tapesInWords(tapes)} in all ${tapes === 1 ? 'shows' : 'show'} that ${station} is within, if the marks stay where they are.`
      : `Shoot again: ${tapesInWords(tapes)} would still not show whether ${station} is within.`,
    steps: [step],
  };
}

function turned({ station, turn: { steps, chance, tapes } }: TwoWays, evaluation: Evaluation): Way {
  const turns = steps.filter(({ kind }) => kind !== 'shoot').map((step) => shortStep(step, evaluation));
  return {
    brief: `${turns.join('; ')} (${percent(chance)})`,
    say: `Turn now: ${turns.join('; ')}. The probability that ${station} is within is then ${percent(chance)}; ${tapesInWords(tapes)} ${tapes === 1 ? 'shows' : 'show'} it.`,
    steps,
  };
}

function tapesInWords(tapes: number): string {
  return `${tapes} ${tapes === 1 ? 'tape' : 'tapes'}`;
}
