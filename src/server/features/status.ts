/** Requests for the status bar: the verdict and the next step; and for tests, the whole evaluation. */
import { STATUS_REQUEST, type Status, type UriParams } from '../../../shared/messages.ts';
import { statusOf } from '../../language/index.ts';
import { guarded, type Session } from '../documents/session.ts';

export function offerStatus(session: Session): void {
  const { connection, workspace } = session;

  connection.onRequest(
    STATUS_REQUEST,
    guarded(session, 'status', null, async ({ uri }: UriParams): Promise<Status | null> => {
      const opened = workspace.byUri(uri) ?? workspace.at(uri);
      if (!opened) return null;
      await workspace.ready(opened);
      return statusOf(opened.book);
    }),
  );

  connection.onRequest(
    'alignbook/evaluation',
    guarded(session, 'evaluation', null, async ({ uri }: { uri: string }) => {
      const opened = workspace.byUri(uri) ?? workspace.at(uri);
      if (!opened) return null;
      await workspace.ready(opened);
      const { verdict, stations, steps, expected } = opened.book.evaluation();
      return { version: opened.document.version, verdict, stations, steps, expected };
    }),
  );
}
