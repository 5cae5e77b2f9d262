/** What a workbook's log comes to, in the few words that fit beside it. */
import type { Status } from '../../shared/messages.ts';
import { severity } from '../model/index.ts';
import type { Book } from './book.ts';

/** Of a book that is up to date. */
export function statusOf(book: Book): Status {
  const { verdict, steps } = book.evaluation();
  return {
    verdict,
    steps: steps.map(({ say, cell }) => ({ say, ...(cell !== undefined && { cell }) })),
    errors: book.findings().filter((finding) => severity(finding) === 'error').length,
  };
}
