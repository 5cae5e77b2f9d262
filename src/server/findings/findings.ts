/** Findings as the client takes them: asked for where it can ask, sent where it cannot, never both. */
import { AskedFindings } from './asked-findings.ts';
import type { Desk, Opened } from '../documents/desk.ts';
import { SentFindings } from './sent-findings.ts';
import type { Session } from '../documents/session.ts';
import type { Findings } from './findings-type.ts';

export function offerFindings(session: Session): Findings {
  return session.client.textDocument?.diagnostic ? new AskedFindings(session) : new SentFindings(session);
}

/** A text has changed: its own findings, and those of who borrows from it, are others now. */
export function announce(desk: Desk, findings: Findings, opened: Opened): void {
  for (const one of [...desk.changed(opened), opened]) findings.changed(one);
}
