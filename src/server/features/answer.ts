/**
 * Requests beyond the protocol that are about one workbook: typed by name, answered when the workbook is up to date.
 */
import type { Requests, RequestAboutWorkbook } from '../../model/index.ts';
import { guarded, type Session } from '../documents/session.ts';
import type { Opened } from '../documents/workspace.ts';

/**
 * Registers the handler of a request. It is called with the evaluated workbook that `uri` belongs to; the answer is
 * null if there is none, or if the handler fails.
 */
export function answer<Name extends RequestAboutWorkbook>(
  session: Session,
  name: Name,
  work: (opened: Opened, params: Requests[Name]['params']) => Requests[Name]['answer'],
): void {
  const { connection, workspace } = session;
  connection.onRequest(
    name,
    guarded(session, name, null, async (params: Requests[Name]['params']) => {
      const opened = workspace.byUri(params.uri) ?? workspace.at(params.uri);
      if (!opened) return null;
      await workspace.ready(opened);
      return work(opened, params);
    }),
  );
}
