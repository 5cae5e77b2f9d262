/** The results of a work cell, with values of the log at that cell. */
import { pathTo, ROOT, type Finding, type WorkEntry } from '../../model/index.ts';
import type { FindingCode } from '../../../shared/findings.ts';
import { namesIn, type Known } from '../../workbook/index.ts';
import type { Book } from './book-type.ts';
import type { IndexedEntry } from './entries-of.ts';
import { logValue, type Moment } from './log-value.ts';
import { machineAt } from './machine-at.ts';

export interface WorkResults {
  readonly results: WorkEntry['results'];
  /** For a name without a result, the reason. */
  readonly lacks: Readonly<Record<string, string>>;
}

/** The log must be folded up to the cell. */
export function workResults(book: Book, logged: IndexedEntry & { readonly entry: WorkEntry }): WorkResults {
  const { entry } = logged;
  if (!entry.later) return { results: entry.results, lacks: {} };
  const { results, log } = computedWithLog(book, logged);
  const lacks = Object.fromEntries(
    entry.later
      .filter((name) => !Object.hasOwn(results, name))
      .flatMap((name) => {
        const why = namesUnder(entry, name)
          .map((used) => log.lacks.get(used))
          .find((reason) => reason !== undefined);
        return why === undefined ? [] : [[name, why]];
      }),
  );
  return { results, lacks };
}

/** Findings of lines that need values of the log. */
export function workFindings(book: Book): Finding[] {
  return book.workbook.entries.flatMap(({ cell, entry }, index) => {
    if (entry.kind !== 'work' || !entry.later) return [];
    const { later } = entry;
    const { problems } = computedWithLog(book, { cell, entry, index });
    return problems
      .filter(({ name }) => later.includes(name))
      .map(({ name, code, from, to, facts }): Finding => {
        const { start, end } = entry.spans[pathTo(name)] ?? entry.spans[ROOT]!;
        // In quotes or over several lines the offsets of an expression differ.
        const isPlain = end - start === entry.values[name]!.length;
        return {
          code: code as FindingCode,
          cell,
          span: isPlain ? { start: start + from, end: start + to } : { start, end },
          facts,
        };
      });
  });
}

interface LogValues {
  readonly known: ReadonlyMap<string, Known>;
  readonly lacks: ReadonlyMap<string, string>;
}

function computedWithLog(book: Book, { entry, cell, index }: IndexedEntry & { readonly entry: WorkEntry }) {
  const log = valuesFor(entry, { log: book.log, machine: machineAt(book, cell), count: index });
  return { ...book.work(entry, cell, log.known), log };
}

function valuesFor({ values, later = [] }: WorkEntry, moment: Moment): LogValues {
  const [known, lacks] = [new Map<string, Known>(), new Map<string, string>()];
  for (const name of new Set(later.flatMap((own) => namesIn(values[own]!)))) {
    const value = logValue(moment, name);
    if (value === undefined) continue;
    if ('why' in value) lacks.set(name, value.why);
    else known.set(name, value);
  }
  return { known, lacks };
}

/** The names that a line depends on, through the lines above it too. */
function namesUnder({ values }: WorkEntry, name: string): string[] {
  const names = new Set([name]);
  for (const one of names) {
    if (Object.hasOwn(values, one)) for (const used of namesIn(values[one]!)) names.add(used);
  }
  return [...names];
}
