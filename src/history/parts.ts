/** Condition and care of each part, and when the next care is due: on a day, or at hours of work. */
import {
  dateAt,
  addInterval,
  lookup,
  type CareDone,
  type CareEntry,
  type CareInterval,
  type CareAction,
  type Due,
  type Condition,
  type LogEntry,
  type Machine,
  type PartHistory,
  type Visit,
} from '../model/index.ts';
import { dayAfter, hoursIn, type Hours } from './hours.ts';

export function partsIn(
  entries: readonly LogEntry[],
  visits: readonly Visit[],
  machine: Machine | undefined,
): PartHistory[] {
  const cares = new Map<string, CareDone[]>();
  const hours = hoursIn(entries, visits);
  /** By part: hours of work at its last care that did something. */
  const worked = new Map<string, number | undefined>();
  for (const visit of visits) {
    for (let k = visit.from; k < visit.to; k++) {
      const { entry, cell } = entries[k]!;
      if (entry.kind !== 'care') continue;
      const date = dateAt(entries, visit, k);
      const done = { session: visit.number, cell, ...(date !== undefined && { date }), ...detailsOf(entry) };
      cares.set(entry.part, [...(cares.get(entry.part) ?? []), done]);
      if (entry.did !== undefined) worked.set(entry.part, hours.at(visit, k));
    }
  }
  const inOrder = ['tube', ...(machine?.path.map(({ name }) => name) ?? []), ...cares.keys()];
  const every = machine?.care ?? {};
  return [...new Set(inOrder)]
    .filter((part) => cares.has(part) || lookup(every, part))
    .map((part) => {
      const [interval, done] = [lookup(every, part), cares.get(part) ?? []];
      return {
        ...partHistory(part, done),
        ...(interval && { every: interval, due: dueOf(done, interval, worked.get(part), hours) }),
      };
    });
}

function detailsOf({
  by,
  found,
  did,
  with: using,
  refit,
}: CareEntry): Pick<CareEntry, 'by' | 'found' | 'did' | 'with' | 'refit'> {
  return {
    ...(by !== undefined && { by }),
    ...(found && { found }),
    ...(did && { did }),
    ...(using !== undefined && { with: using }),
    ...(refit && { refit }),
  };
}

function partHistory(part: string, cares: readonly CareDone[]): PartHistory {
  const left = cares.reduce<Condition | undefined>(conditionAfter, undefined);
  return { part, cares, ...(left && { left }) };
}

/**
 * Cleaning removes dust; only replacement removes a scratch, a burn, a pit or a crack, and only tightening a looseness.
 */
function conditionAfter(before: Condition | undefined, { found, did }: CareDone): Condition | undefined {
  const now = found ?? before;
  if (now === 'clean' || did === 'replaced') return undefined;
  if (did === 'tightened' && now === 'loose') return undefined;
  return did && CLEANS.has(did) && now !== undefined && WIPED.has(now) ? undefined : now;
}

const WIPED: ReadonlySet<Condition> = new Set(['dusty', 'hazy', 'spotted']);

export const CLEANS: ReadonlySet<CareAction> = new Set(['cleaned in place', 'removed and cleaned']);

/** @param worked hours of work at the last care */
function dueOf(cares: readonly CareDone[], every: CareInterval, worked: number | undefined, hours: Hours): Due {
  if (!('hours' in every)) return dueDate(cares, every);
  if (cares.every(({ did }) => did === undefined)) return { unknown: 'never' };
  const { latest } = hours;
  if (worked === undefined || !latest) return { unknown: 'hours' };
  const left = worked + every.hours - latest.worked;
  const expected = dayAfter(left, hours);
  return { at: latest.shown + left, left, ...(expected !== undefined && { expected }) };
}

/** From the last dated care; an inspection that found nothing to clean counts. */
function dueDate(cares: readonly CareDone[], every: Exclude<CareInterval, { hours: number }>): Due {
  if (cares.length === 0) return { unknown: 'never' };
  const last = cares
    .flatMap(({ date }) => date ?? [])
    .toSorted()
    .at(-1);
  if (last === undefined) return { unknown: 'undated' };
  const on = addInterval(last, every);
  return on === undefined ? { unknown: 'too far' } : { on };
}
