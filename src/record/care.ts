/** Care of the optics, power, and checks. */
import { checkKey, type CareHistory } from '../model/index.ts';
import {
  arrivalInWords,
  careInWords,
  careSentences,
  changeInWords,
  dueInWords,
  powerInWords,
  throughInWords,
  transmissionInWords,
} from '../history/index.ts';
import { table, type Block } from './blocks.ts';
import { when } from './done.ts';
import type { Visit } from './visit.ts';

/** @param session number of the visit */
export function careBlocks(
  { parts, power, arrivals, transmissions, changes, ...rest }: CareHistory,
  session: number,
): Block[] {
  const cares = parts.flatMap((part) => {
    const own = part.cares.filter((care) => care.session === session);
    const due = dueInWords(part) ?? '';
    return own.length === 0
      ? due === ''
        ? []
        : [[part.part, 'not in this visit', due]]
      : own.map((care, k) => [k === 0 ? part.part : '', careInWords(care), k === 0 ? due : '']);
  });
  const powerRows = power
    .filter((reading) => reading.session === session)
    .map((reading) => {
      const change = arrivals.find(({ to }) => to.cell === reading.cell);
      return [reading.station, powerInWords(reading), change ? arrivalInWords(change) : ''];
    });
  const transmissionRows = transmissions
    .filter(({ to }) => to.session === session)
    .map((transmission) => {
      const change = changes.find(({ now }) => now === transmission);
      return [
        throughInWords(transmission.through),
        transmissionInWords(transmission),
        change ? changeInWords(change) : '',
      ];
    });
  const sentences = careSentences({ parts, power, arrivals, transmissions, changes, ...rest });
  return [
    ...table(['part', 'care', 'next'], cares),
    ...table(['power at', 'arrives', ''], powerRows),
    ...table(['through', 'passes', ''], transmissionRows),
    ...(sentences.length === 0 ? [] : [{ kind: 'list' as const, items: sentences }]),
  ];
}

export function checkLists({ entries }: Visit): Block[] {
  return entries.flatMap(({ entry }, index): Block[] => {
    if (entry.kind !== 'checks') return [];
    const { title, done, open } = entry;
    const later = new Set(
      entries.slice(index + 1).flatMap(({ entry: next }) => (next.kind === 'checks' ? next.done.map(checkKey) : [])),
    );
    const stillOpen = (item: string) =>
      later.has(checkKey(item)) ? `open at first, done later: ${item}` : `OPEN: ${item}`;
    return [
      { kind: 'subheading', text: [title, when(entry)].filter(Boolean).join(', ') },
      { kind: 'list', items: [...done.map((item) => `done: ${item}`), ...open.map(stillOpen)] },
    ];
  });
}
