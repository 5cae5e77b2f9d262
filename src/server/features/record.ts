/** The record of the last visit, as a page and as Markdown. */
import { RECORD_REQUEST, type RecordParams, type VisitRecord } from '../../../shared/messages.ts';
import { recordOf, toHtml, toMarkdown } from '../../record/index.ts';
import { guarded, type Session } from '../documents/session.ts';

export function offerRecord(session: Session): void {
  const { connection, workspace } = session;
  connection.onRequest(
    RECORD_REQUEST,
    guarded(session, 'record', null, async ({ uri, ...identity }: RecordParams): Promise<VisitRecord | null> => {
      const opened = workspace.byUri(uri) ?? workspace.at(uri);
      if (!opened) return null;
      await workspace.ready(opened);
      const blocks = recordOf(opened.book, identity);
      return { html: toHtml(blocks, identity), markdown: toMarkdown(blocks) };
    }),
  );
}
