/** What a status bar and panels ask for: the verdict and the next step, and the whole evaluation. */
import { adviceInBrief, adviceInFull } from '../language/index.ts';
import { severity, type Severity, type Verdict } from '../model/index.ts';
import type { Opened } from './desk.ts';
import { guarded, type Session } from './session.ts';

/** Answer to `alignbook/status`. */
export interface Status {
  readonly verdict: Verdict;
  /** A line, `next: M1 B in 1/4; shoot M2 near and far`. */
  readonly brief: string;
  /** Markdown. */
  readonly full: string;
  readonly findings: Readonly<Record<'error' | 'warning', number>>;
}

export function offerStatus(session: Session): void {
  const { connection, desk } = session;

  connection.onRequest('alignbook/status', guarded(session, 'status', null, async ({ uri }: { uri: string }): Promise<Status | null> => {
    const opened = desk.at(uri);
    if (!opened) return null;
    await desk.ready(opened);
    const evaluation = opened.book.evaluation();
    return { verdict: evaluation.verdict, brief: adviceInBrief(evaluation), full: adviceInFull(evaluation), findings: { error: countOf(opened, 'error'), warning: countOf(opened, 'warning') } };
  }));

  connection.onRequest('alignbook/evaluation', guarded(session, 'evaluation', null, async ({ uri }: { uri: string }) => {
    const opened = desk.at(uri);
    if (!opened) return null;
    await desk.ready(opened);
    const { verdict, stations, steps, expected } = opened.book.evaluation();
    return { version: opened.paper.version, verdict, stations, steps, expected };
  }));
}

function countOf({ book }: Opened, grave: Severity): number {
  return book.findings().filter((finding) => severity(finding) === grave).length;
}
