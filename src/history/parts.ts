/** Condition and care of each part, and when the next care is due. */
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

export function partsIn(
  entries: readonly LogEntry[],
  visits: readonly Visit[],
  machine: Machine | undefined,
): PartHistory[] {
  const cares = new Map<string, CareDone[]>();
  for (const visit of visits) {
    for (let k = visit.from; k < visit.to; k++) {
      const { entry, cell } = entries[k]!;
      if (entry.kind !== 'care') continue;
      const date = dateAt(entries, visit, k);
      const done = { session: visit.number, cell, ...(date !== undefined && { date }), ...detailsOf(entry) };
      cares.set(entry.part, [...(cares.get(entry.part) ?? []), done]);
    }
  }
  const inOrder = ['tube', ...(machine?.path.map(({ name }) => name) ?? []), ...cares.keys()];
  const every = machine?.care ?? {};
  return [...new Set(inOrder)]
    .filter((part) => cares.has(part) || lookup(every, part))
    .map((part) => partHistory(part, cares.get(part) ?? [], lookup(every, part)));
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

function partHistory(part: string, cares: readonly CareDone[], every: CareInterval | undefined): PartHistory {
  const left = cares.reduce<Condition | undefined>(conditionAfter, undefined);
  return { part, cares, ...(every && { every, due: dueDate(cares, every) }), ...(left && { left }) };
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

/** From the last dated care; an inspection that found nothing to clean counts. */
function dueDate(cares: readonly CareDone[], every: CareInterval): Due {
  if ('hours' in every) return { unknown: 'hours' };
  if (cares.length === 0) return { unknown: 'never' };
  const last = cares
    .flatMap(({ date }) => date ?? [])
    .toSorted()
    .at(-1);
  if (last === undefined) return { unknown: 'undated' };
  const on = addInterval(last, every);
  return on === undefined ? { unknown: 'too far' } : { on };
}
