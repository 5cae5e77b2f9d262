/** The status of a workbook for a status bar. */
import { severity, type Status } from '../../model/index.ts';
import type { Severity } from '../../../shared/wording.ts';
import type { Book } from '../book/book-type.ts';
import { shortAdvice, adviceInFull, shortStep, stepsNow } from './step-hint.ts';

/** The book must be up to date. */
export function statusOf(book: Book): Status {
  const evaluation = book.evaluation();
  const count = (grave: Severity) => book.findings().filter((finding) => severity(finding) === grave).length;
  return {
    verdict: evaluation.verdict,
    brief: shortAdvice(evaluation),
    full: adviceInFull(book),
    steps: stepsNow(evaluation).map((step) => ({
      brief: shortStep(step, evaluation),
      say: step.say,
      ...(step.cell !== undefined && { cell: step.cell }),
    })),
    findings: { error: count('error'), warning: count('warning') },
  };
}
