/** The verdict and the next step, for a status bar. */
import { statusOf } from '../../language/index.ts';
import type { Session } from '../documents/session.ts';
import { answer } from './answer.ts';

export function offerStatus(session: Session): void {
  answer(session, 'alignbook/status', ({ book, document }) => ({ ...statusOf(book), version: document.version }));
}
