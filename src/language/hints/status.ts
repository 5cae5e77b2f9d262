/** The status of a workbook for a status bar. */
import { severity, type Status } from '../../model/index.ts';
import type { Severity } from '../../../shared/wording.ts';
import type { Book } from '../book/book-type.ts';
import { practiceAt } from '../book/practice-at.ts';
import { adviceNow } from './advice-now.ts';
import { shortStep } from './step-hint.ts';

/** The book must be up to date. */
export function statusOf(book: Book): Status {
  const evaluation = book.evaluation();
  const { sentence, full, steps, ways } = adviceNow(book);
  const count = (grave: Severity) => book.findings().filter((finding) => severity(finding) === grave).length;
  return {
    verdict: evaluation.verdict,
    sentence,
    ...(practiceAt(book) && { isPractice: true }),
    full,
    steps: steps.map((step) => ({
      brief: shortStep(step, evaluation),
      say: step.say,
      ...(step.cell !== undefined && { cell: step.cell }),
    })),
    ...(ways && {
      ways: ways.map((way) => ({
        brief: way.brief,
        say: way.say,
        cells: way.steps.flatMap(({ cell }) => (cell === undefined ? [] : [cell])),
      })),
    }),
    findings: { error: count('error'), warning: count('warning') },
  };
}
