import type { Entry, LogEntry } from './entry.ts';
import type { FactsOf, Finding, FindingCode } from './finding.ts';
import type { Span } from './span.ts';

/** A finding at a value of an entry, or at the nearest enclosing value that has a span. */
export function findingAt<C extends FindingCode>(logged: LogEntry, path: string, code: C, facts: FactsOf<C>): Finding {
  return { code, cell: logged.cell, span: spanOf(logged.entry, path), facts };
}

function spanOf({ spans }: Entry, path: string): Span {
  for (let at = path; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('/')))) {
    if (Object.hasOwn(spans, at)) return spans[at]!;
  }
  return spans[''] ?? { start: 0, end: 0 };
}
