import type { Entry, LogEntry } from './entry.ts';
import type { FactsOf, Finding, FindingCode } from './finding.ts';
import { parentOf, ROOT, type Path } from './path.ts';
import type { Span } from './span.ts';

/** A finding at a value of an entry, or at the nearest enclosing value that has a span. */
export function findingAt<C extends FindingCode>(logged: LogEntry, path: Path, code: C, facts: FactsOf<C>): Finding {
  return { code, cell: logged.cell, span: spanOf(logged.entry, path), facts };
}

function spanOf({ spans }: Entry, path: Path): Span {
  for (let at = path; at !== ROOT; at = parentOf(at)) {
    if (Object.hasOwn(spans, at)) return spans[at]!;
  }
  return spans[ROOT] ?? { start: 0, end: 0 };
}
