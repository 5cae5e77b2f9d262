/** Care of the optics, power, and what was checked. */
import type { Block } from './blocks.ts';
import { when } from './done.ts';
import type { Visit } from './visit.ts';

export function careTable({ entries }: Visit): Block[] {
  const rows = entries.flatMap(({ entry }) => {
    if (entry.kind !== 'care') return [];
    const { part, found = '', did = '', with: by, refit, note } = entry;
    const back = refit ? Object.entries(refit).map(([what, how]) => `${what} ${how}`).join(', ') : undefined;
    return [[when(entry), part, found, [did, by && `with ${by}`].filter(Boolean).join(' '), [back && `refitted: ${back}`, note].filter(Boolean).join('. ')]];
  });
  return rows.length === 0 ? [] : [{ kind: 'table', head: ['when, by', 'part', 'found', 'done', ''], rows }];
}

export function powerTable({ entries }: Visit): Block[] {
  const rows = entries.flatMap(({ entry }) => (entry.kind === 'power' ? [[when(entry), entry.station, entry.readings.map((watts) => `${watts} W`).join(', '), entry.note ?? '']] : []));
  return rows.length === 0 ? [] : [{ kind: 'table', head: ['when, by', 'power at', 'reading', ''], rows }];
}

export function checkLists({ entries }: Visit): Block[] {
  return entries.flatMap(({ entry }): Block[] => {
    if (entry.kind !== 'checks') return [];
    const { title, done, open } = entry;
    return [{ kind: 'subheading', text: [title, when(entry)].filter(Boolean).join(', ') }, { kind: 'list', items: [...done.map((item) => `done: ${item}`), ...open.map((item) => `OPEN: ${item}`)] }];
  });
}
