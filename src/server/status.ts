/** The editor asks what a workbook comes to. */
import { STATUS_REQUEST, type Status, type StatusParams } from '../../shared/messages.ts';
import { statusOf } from '../language/index.ts';
import { guarded, type Session } from './session.ts';

export function answerStatus(session: Session): void {
  const { connection, desk } = session;
  const answer = async ({ uri }: StatusParams): Promise<Status | null> => {
    const opened = desk.at(uri);
    if (!opened) return null;
    await desk.ready(opened);
    return statusOf(opened.book);
  };
  connection.onRequest(STATUS_REQUEST, guarded<StatusParams, Status | null>(session, 'status', null, answer));
}
