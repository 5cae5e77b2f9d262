/** Notes, and the results of work cells. */
import { resultLabel, unitsAt, workResults, type Book } from '../language/index.ts';
import type { Entry } from '../model/index.ts';
import { table, type Block } from './blocks.ts';
import { when } from './done.ts';
import type { Visit } from './visit.ts';

export function remarks({ entries }: Visit): Block[] {
  const own = entries.flatMap(({ entry }) => {
    const about = aboutOf(entry);
    if (entry.note === undefined || about === undefined) return [];
    return [[[when(entry), about].filter(Boolean).join(', '), entry.note.trim()].filter(Boolean).join(': ')];
  });
  return own.length === 0 ? [] : [{ kind: 'list', items: own }];
}

export function workTable(book: Book, { entries }: Visit): Block[] {
  return entries.flatMap(({ entry, ...logged }): Block[] => {
    if (entry.kind !== 'work') return [];
    const { results, lacks } = workResults(book, { ...logged, entry });
    const rows = Object.entries(entry.values).map(([name, expression]) => [
      name,
      expression,
      resultLabel(name, results, lacks, unitsAt(book, logged.cell)) ?? 'cannot be computed',
    ]);
    return [{ kind: 'subheading', text: entry.title }, ...table(['', '', ''], rows)];
  });
}

/** The subject of a note; undefined if the note is printed in another section. */
function aboutOf(entry: Entry): string | undefined {
  switch (entry.kind) {
    case 'marks':
      return `marks on ${entry.station}`;
    case 'power':
      return `power at ${entry.station}`;
    case 'care':
      return `care of ${entry.part}`;
    case 'note':
      return '';
    case 'adjust':
    case 'event':
      return undefined;
    case 'measure':
      return entry.name;
    case 'machine':
    case 'limits':
    case 'session':
    case 'checks':
    case 'work':
    case 'release':
    case 'unread':
      return entry.kind;
    default:
      return entry satisfies never;
  }
}
