/** What a workbook's log comes to, in the few words that fit beside it. */
import type { Status } from '../../../shared/messages.ts';
import { severity } from '../../model/index.ts';
import type { Severity } from '../../../shared/findings.ts';
import type { Book } from '../book/book-type.ts';
import { adviceInBrief, adviceInFull, stepInBrief, stepsNow } from './step-hint.ts';

/** Of a book that is up to date. */
export function statusOf(book: Book): Status {
  const evaluation = book.evaluation();
  const count = (grave: Severity) => book.findings().filter((finding) => severity(finding) === grave).length;
  return {
    verdict: evaluation.verdict,
    brief: adviceInBrief(evaluation),
    full: adviceInFull(book),
    steps: stepsNow(evaluation).map((step) => ({
      brief: stepInBrief(step, evaluation),
      say: step.say,
      ...(step.cell !== undefined && { cell: step.cell }),
    })),
    findings: { error: count('error'), warning: count('warning') },
  };
}
