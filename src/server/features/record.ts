/** The record of the last visit, as a page and as Markdown. */
import { recordOf, toHtml, toMarkdown } from '../../record/index.ts';
import type { Session } from '../documents/session.ts';
import { answer } from './answer.ts';

export function offerRecord(session: Session): void {
  answer(session, 'alignbook/record', ({ book }, { uri: _, paper, ...identity }) => {
    const blocks = recordOf(book, identity);
    return { html: toHtml(blocks, identity, paper), markdown: toMarkdown(blocks) };
  });
}
