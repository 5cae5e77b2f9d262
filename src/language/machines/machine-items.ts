/** The facts about a machine that are listed below its name: the last visit, care, drift, open points, errors. */
import { careDue, careHistory, driftDue, recentHistory, whenInWords, type DueItem } from '../../history/index.ts';
import {
  checkKey,
  dateAt,
  message,
  pathTo,
  ROOT,
  severity,
  visitsIn,
  type Finding,
  type LogEntry,
  type MachineItem,
  type TextPlace,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';

/** The care of every part that has an interval, and the drift of every station that has a forecast, one by one. */
export function* dueIn({ log, workbook: { entries } }: Book, today: string): Generator<undefined, DueItem[]> {
  const due = careDue(careHistory(entries), today);
  // Drift needs two visits.
  if (visitsIn(entries).length < 2) return due;
  for (const { name } of log.evaluation().stations) {
    yield;
    due.push(...driftDue(recentHistory(entries, log, [name]).forecasts, today));
  }
  return due;
}

/** The errors that matter now: those that the list of findings shows for the present state of the log. */
export function errorsIn(book: Book): readonly Finding[] {
  return book.findingsNow().filter((finding) => severity(finding) === 'error');
}

export function itemsOf(
  { workbook: { entries } }: Book,
  due: readonly DueItem[],
  errors: readonly Finding[],
  today: string,
): MachineItem[] {
  return [
    ...lastVisit(entries),
    ...together(due, today).map((items) => dueItem(entries, items, today)),
    ...openPoints(entries),
    ...errorItems(entries, errors),
  ];
}

function lastVisit(entries: readonly LogEntry[]): MachineItem[] {
  const visit = visitsIn(entries).at(-1);
  if (!visit) return [];
  const { opening, from, to } = visit;
  const day = dateAt(entries, visit, to - 1);
  return [
    {
      kind: 'visit',
      name: 'Last visit',
      says: flat([day, opening?.title, opening?.by].filter((word) => word !== undefined).join(', ')),
      place: placeOf(entries[from]!),
    },
  ];
}

/** Parts whose care is due at the same time share a line. */
function together(due: readonly DueItem[], today: string): DueItem[][] {
  const groups = new Map<string, DueItem[]>();
  for (const item of due) {
    const key = `${item.kind} ${whenInWords(item, today)}`;
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()];
}

/** At the last care of the part, the last marks of the station; without any, at the machine, which has the interval. */
function dueItem(entries: readonly LogEntry[], items: readonly DueItem[], today: string): MachineItem {
  const [first] = items as [DueItem];
  const { kind, part } = first;
  const parts = items.map((item) => item.part).join(', ');
  const about = entries.findLast(({ entry }) =>
    kind === 'care' ? entry.kind === 'care' && entry.part === part : entry.kind === 'marks' && entry.station === part,
  );
  const logged = about ?? entries.findLast(({ entry }) => entry.kind === 'machine');
  return {
    kind,
    name: kind === 'care' ? `${parts} care` : `${parts} drifts out`,
    says: whenInWords(first, today),
    ...(logged && { place: placeOf(logged) }),
  };
}

/** The checks that were left open and are not done in a later list, of any visit. */
function openPoints(entries: readonly LogEntry[]): MachineItem[] {
  const open = entries.flatMap((logged, index) => {
    if (logged.entry.kind !== 'checks') return [];
    const later = entries.slice(index + 1).flatMap(({ entry }) => (entry.kind === 'checks' ? [entry] : []));
    const again = new Set(later.flatMap(({ done, open: still }) => [...done, ...still].map(checkKey)));
    return logged.entry.open.filter((item) => !again.has(checkKey(item))).map((item) => ({ item, logged }));
  });
  const [first] = open;
  if (!first) return [];
  return [
    {
      kind: 'open',
      name: 'Open points',
      says: flat(`${open.length}: ${open.map(({ item }) => item).join('; ')}`),
      place: placeOf(first.logged),
    },
  ];
}

function errorItems(entries: readonly LogEntry[], all: readonly Finding[]): MachineItem[] {
  const [first] = all;
  if (!first) return [];
  const place = placeOfFinding(entries, first);
  return [
    {
      kind: 'error',
      name: all.length === 1 ? '1 error' : `${all.length} errors`,
      says: flat(message(first)),
      ...(place && { place }),
    },
  ];
}

function placeOfFinding(entries: readonly LogEntry[], { cell }: Finding): TextPlace | undefined {
  const logged = entries.find((one) => one.cell === cell);
  return logged && placeOf(logged);
}

/** A tree shows one line, and cuts it at its edge; a note may be as long as a cell. */
const LONGEST = 200;

function flat(text: string): string {
  return text.replace(/\s+/g, ' ').trim().slice(0, LONGEST);
}

/** The head of a cell. */
export function placeOf({ cell, entry }: LogEntry): TextPlace {
  const kind = entry.kind === 'unread' ? entry.of : entry.kind;
  const path = kind === undefined ? ROOT : pathTo(kind);
  return { cell, path: Object.hasOwn(entry.spans, path) ? path : ROOT };
}
