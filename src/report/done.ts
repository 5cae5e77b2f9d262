/** What was moved, in its order, and what it did. */
import { shiftInWords } from '../alignment/index.ts';
import { turnHint, type Book } from '../language/index.ts';
import { turnInCell, type AdjustEntry, type EventEntry } from '../model/index.ts';
import { table, type Block } from './blocks.ts';
import type { Visit } from './visit.ts';

export function doneTable(book: Book, { entries }: Visit): Block[] {
  const rows = entries.flatMap((standing) => {
    const { entry } = standing;
    if (entry.kind === 'event') return [[when(entry), entry.what, 'the machine was disturbed', entry.note ?? '']];
    if (entry.kind !== 'adjust') return [];
    const did = turnHint(book, standing)[0]?.label ?? '';
    return [[when(entry), entry.part, moveInWords(entry), [did, entry.note ?? ''].filter((text) => text !== '').join('. ')]];
  });
  return rows.length === 0 ? [{ kind: 'text', text: 'Nothing was moved.' }] : table(['when, by', 'part', 'what', 'what it did'], rows);
}

function moveInWords({ turns, shift, lock }: AdjustEntry): string {
  const turned = Object.entries(turns).map(([screw, amount]) => `${screw} ${turnInCell(amount)}`);
  return [
    ...(lock === 'loose' ? ['lock loosened'] : []), ...turned,
    ...(shift ? [`${shift.end === undefined ? 'shifted' : `${shift.end} end shifted`} ${shiftInWords(shift.by)}`] : []),
    ...(lock === 'tight' ? ['lock tight'] : []),
  ].join(', ');
}

export function when({ date, by }: Pick<AdjustEntry | EventEntry, 'date' | 'by'>): string {
  return [date, by].filter((text) => text !== undefined).join(', ');
}
