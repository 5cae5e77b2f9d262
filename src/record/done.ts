/** Moves in order, with their effects. */
import { shiftInWords } from '../words/index.ts';
import { turnHint, unitsAt, type Book } from '../language/index.ts';
import {
  clockSense,
  mountOf,
  turnInCell,
  type AdjustEntry,
  type EventEntry,
  type Machine,
  type Units,
} from '../model/index.ts';
import { table, type Block } from './blocks.ts';
import type { Visit } from './visit.ts';

export function doneTable(book: Book, { entries, machine }: Visit): Block[] {
  const rows = entries.flatMap((logged) => {
    const { entry } = logged;
    if (entry.kind === 'event') return [[when(entry), entry.what, 'the machine was disturbed', entry.note ?? '']];
    if (entry.kind !== 'adjust' || !isWork(entry)) return [];
    const did = turnHint(book, logged)[0]?.label ?? '';
    return [
      [
        when(entry),
        entry.part,
        moveInWords(machine, entry, unitsAt(book, logged.cell)),
        [did, entry.note ?? ''].filter((text) => text !== '').join('. '),
      ],
    ];
  });
  return rows.length === 0
    ? [{ kind: 'text', text: 'Nothing was moved.' }]
    : table(['when, by', 'part', 'what', 'effect'], rows);
}

/** Whether anything was moved; the state of nuts as found, and a screw at its end, are no moves. */
export function isWork({ turns, shift, lock }: AdjustEntry): boolean {
  return Object.keys(turns).length > 0 || shift !== undefined || lock !== undefined;
}

function moveInWords(machine: Machine | undefined, { part, turns, shift, lock }: AdjustEntry, units: Units): string {
  const hand = machine && mountOf(machine, part)?.hand;
  const turned = Object.entries(turns).map(
    ([screw, amount]) => `${screw} ${turnInCell(amount)}${hand === 'left' ? ` (${clockSense(amount, hand)})` : ''}`,
  );
  return [
    ...(lock === 'loose' ? ['lock loosened'] : []),
    ...turned,
    ...(shift
      ? [`${shift.end === undefined ? 'shifted' : `${shift.end} end shifted`} ${shiftInWords(shift.by, units)}`]
      : []),
    ...(lock === 'tight' ? ['lock tight'] : []),
  ].join(', ');
}

export function when({ date, by }: Pick<AdjustEntry | EventEntry, 'date' | 'by'>): string {
  return [date, by].filter((text) => text !== undefined).join(', ');
}
