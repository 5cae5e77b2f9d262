/** What was written down in words, and worked out beside it. */
import { saidOf, workResults, type Book } from '../language/index.ts';
import type { Block } from './blocks.ts';
import { when } from './done.ts';
import type { Visit } from './visit.ts';

export function remarks({ entries }: Visit): Block[] {
  const own = entries.flatMap(({ entry }) => {
    if (entry.note === undefined || TOLD.has(entry.kind)) return [];
    const about = entry.kind === 'marks' ? `marks on ${entry.station}` : entry.kind === 'note' ? '' : entry.kind;
    return [[[when(entry), about].filter(Boolean).join(', '), entry.note.trim()].filter(Boolean).join(': ')];
  });
  return own.length === 0 ? [] : [{ kind: 'list', items: own }];
}

/** Where the note stands beside what it is about. */
const TOLD: ReadonlySet<string> = new Set(['adjust', 'event', 'care', 'power']);

export function workTable(book: Book, { entries }: Visit): Block[] {
  return entries.flatMap(({ entry, ...standing }): Block[] => {
    if (entry.kind !== 'work') return [];
    const { results, lacks } = workResults(book, { ...standing, entry });
    const rows = Object.entries(entry.values).map(([name, expression]) => [name, expression, saidOf(name, results, lacks) ?? 'cannot be worked out']);
    return [{ kind: 'subheading', text: entry.title }, { kind: 'table', head: ['', '', ''], rows }];
  });
}
