/** Diagnostics are pulled where the client supports it, else pushed, never both. */
import { PulledFindings } from './pulled-findings.ts';
import type { Workspace, Opened } from '../documents/workspace.ts';
import { PushedFindings } from './pushed-findings.ts';
import type { Session } from '../documents/session.ts';
import type { Findings } from './findings-type.ts';

export function offerFindings(session: Session): Findings {
  return session.client.textDocument?.diagnostic ? new PulledFindings(session) : new PushedFindings(session);
}

/** Updates the findings of a changed workbook and of those that take machines from it. */
export function announce(workspace: Workspace, findings: Findings, opened: Opened): void {
  for (const one of [...workspace.changed(opened), opened]) findings.changed(one);
}
