/** One workbook among others: the state of its machine, and what somebody must do about it on a day. */
import { byUrgency, dueInBrief, type DueItem } from '../../history/index.ts';
import {
  dateAt,
  pathTo,
  visitsIn,
  type Entry,
  type Evaluation,
  type Finding,
  type LogEntry,
  type MachineSummary,
  type ReadableMachine,
  type UnreadableWorkbook,
  type Visit,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { machineAt } from '../book/machine-at.ts';
import { adviceNow } from '../hints/advice-now.ts';
import { dueIn, errorsIn, itemsOf, placeOf } from './machine-items.ts';
import { shownInWords, shownState } from './shown-state.ts';

/** The book must be up to date. @param today `2026-03-14` */
export function machineSummary(book: Book, today: string): MachineSummary {
  const parts = summaryInParts(book, today);
  for (;;) {
    const { done, value } = parts.next();
    if (done) return value;
  }
}

/** The same, with pauses between what takes a while; the book must be up to date after each. */
export function* summaryInParts(book: Book, today: string): Generator<undefined, MachineSummary> {
  const machine = machineAt(book, Infinity);
  const unreadable = whyUnreadable(book);
  if (unreadable || !machine) return { group: 'unreadable', ...(unreadable ?? { says: 'no machine in it' }) };
  const { sentence, then } = adviceNow(book);
  yield;
  const errors = errorsIn(book);
  const due = byUrgency(yield* dueIn(book, today));
  const evaluation = book.evaluation();
  const service = serviceOf(book);
  const urgent = due.filter(({ urgency }) => urgency === 'overdue' || urgency === 'soon');
  const group = machine.practice ? 'practice' : groupOf(evaluation, errors, service, urgent);
  const on = group === 'needs' ? service.since : group === 'due' ? urgent[0]?.on : dayNext(due);
  const state = shownState(evaluation);
  return {
    group,
    name: machine.name,
    ...(machine.title !== undefined && { title: machine.title }),
    state,
    says: [
      ...(machine.practice ? ['PRACTICE'] : []),
      shownInWords(state, book),
      ...besides(group, service, due, errors, today),
    ].join(' · '),
    sentence,
    then,
    ...(on !== undefined && { on }),
    items: itemsOf(book, due, errors, today),
  };
}

/** Whether the workbook only describes a machine, for others to take over, and logs nothing. */
export function isDescription({ workbook: { entries } }: Book): boolean {
  return entries.length > 0 && entries.every(({ entry }) => DESCRIBES.has(entry.kind));
}

const DESCRIBES: ReadonlySet<Entry['kind']> = new Set(['machine', 'limits', 'note', 'work']);

function whyUnreadable(book: Book): Omit<UnreadableWorkbook, 'group'> | undefined {
  const conflict = book.split.problems.find(({ code }) => code === 'cells.conflict' || code === 'cells.limit');
  if (conflict) {
    const what = conflict.code === 'cells.conflict' ? 'merge conflict' : `too long: ${conflict.facts['what']}`;
    return { says: `line ${lineAt(book, conflict.start)}: ${what}` };
  }
  const { entries } = book.workbook;
  if (entries.length === 0) return { says: 'empty: no machine in it yet' };
  const unread = book.last('machine', Infinity);
  if (unread?.entry.kind !== 'unread') return undefined;
  const start = book.split.cells[unread.cell]!.start + (unread.entry.spans[pathTo('machine')]?.start ?? 0);
  return { says: `line ${lineAt(book, start)}: the machine cell has errors`, place: placeOf(unread) };
}

function lineAt({ text }: Book, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

/** Whether the machine is in use, and since when it is not. */
interface Service {
  readonly state: 'in service' | 'withdrawn' | 'open' | 'never';
  /** The day of the last visit. */
  readonly since?: string;
}

function serviceOf({ workbook: { entries } }: Book): Service {
  const last = visitsIn(entries).at(-1);
  if (!last) return { state: 'never' };
  const release = entries.findLast(({ entry }, index) => entry.kind === 'release' && index >= last.from)?.entry;
  const since = dayOfVisit(entries, last);
  return {
    state: release?.kind === 'release' ? release.to : 'open',
    ...(since !== undefined && { since }),
  };
}

function dayOfVisit(entries: readonly LogEntry[], visit: Visit): string | undefined {
  return dateAt(entries, visit, visit.to - 1);
}

function groupOf(
  { verdict, stations, unexplained }: Evaluation,
  errors: readonly Finding[],
  { state }: Service,
  urgent: readonly DueItem[],
): ReadableMachine['group'] {
  const isOff = stations.some((station) => station.state === 'outside' || station.state === 'stale');
  if (verdict === 'blocked' || isOff || unexplained > 0 || state !== 'in service' || errors.length > 0) return 'needs';
  return urgent.length > 0 ? 'due' : 'service';
}

/** What else matters, beside the verdict. */
function besides(
  group: ReadableMachine['group'],
  { state, since }: Service,
  due: readonly DueItem[],
  { length: errors }: readonly Finding[],
  today: string,
): string[] {
  if (group === 'practice') return [];
  if (group === 'due') return [dueInBrief(due[0]!, today)];
  if (group === 'service') {
    const next = dayNext(due);
    return next !== undefined ? [`next ${next}`] : since !== undefined ? [`last visit ${since}`] : [];
  }
  return [
    ...(state === 'withdrawn' ? ['withdrawn'] : []),
    ...(state === 'open' ? [since === undefined ? 'not released' : `not released since ${since}`] : []),
    ...(errors > 0 ? [errors === 1 ? '1 error' : `${errors} errors`] : []),
  ];
}

function dayNext(due: readonly DueItem[]): string | undefined {
  return due.flatMap(({ on }) => on ?? []).toSorted()[0];
}
