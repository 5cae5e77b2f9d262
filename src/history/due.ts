/**
 * What is due on a day, and how soon: care by date or by hours of work, and the day from which drift may bring a station
 * out of limits. The day is given by the caller, so that the result depends on nothing else.
 */
import { daysBetween, type CareHistory, type Forecast, type PartHistory } from '../model/index.ts';
import { hoursOfWork } from './care-words.ts';

/** `soon`: within 30 days. */
export type Urgency = 'overdue' | 'soon' | 'later' | 'unknown';

/** One thing that will have to be done. */
export interface DueItem {
  readonly kind: 'care' | 'drift';
  /** The part, or the station. */
  readonly part: string;
  readonly urgency: Urgency;
  /** The day, or the expected one; absent if none can be given. */
  readonly on?: string;
  /** Hours of work that were left at the last reading of the counter, and what it will show; for care by hours. */
  readonly hours?: { readonly left: number; readonly at: number };
  /** Why nothing is known, in half a sentence. */
  readonly because?: string;
}

/** Days. */
const SOON = 30;
/** Hours of work a day where the log does not show how many: one shift, so that it is reported rather too early. */
const SHIFT = 8;

/** The care of every part that has an interval. @param today `2026-03-14` */
export function careDue({ parts }: Pick<CareHistory, 'parts'>, today: string): DueItem[] {
  return parts.flatMap(({ part, due }) => (due ? [{ kind: 'care' as const, part, ...careItem(due, today) }] : []));
}

function careItem(due: NonNullable<PartHistory['due']>, today: string): Omit<DueItem, 'kind' | 'part'> {
  if ('unknown' in due) return { urgency: 'unknown', because: BECAUSE[due.unknown] };
  if ('on' in due) return { urgency: urgencyOf(due.on, today), on: due.on };
  const { at, left, expected } = due;
  const hours = { left, at };
  if (left < 0) return { urgency: 'overdue', hours };
  if (expected === undefined) return { urgency: left <= SHIFT * SOON ? 'soon' : 'later', hours };
  // The counter alone shows whether it is overdue: an expected day that has passed only makes that likely.
  const urgency = urgencyOf(expected, today);
  return { urgency: urgency === 'overdue' ? 'soon' : urgency, on: expected, hours };
}

const BECAUSE = {
  hours: 'the hours of work are not logged',
  never: 'no care in this log yet',
  undated: 'the last care has no date',
  'too far': 'too far in the future',
} as const;

/** The stations that drift is forecast to bring out of limits, each with the day from which that may be so. */
export function driftDue(forecasts: readonly Forecast[], today: string): DueItem[] {
  return forecasts.flatMap((forecast): DueItem[] => {
    if ('because' in forecast || !forecast.unsure) return [];
    const { on } = forecast.unsure;
    return [{ kind: 'drift', part: forecast.station, urgency: urgencyOf(on, today), on }];
  });
}

function urgencyOf(on: string, today: string): Urgency {
  const days = daysBetween(today, on);
  return days < 0 ? 'overdue' : days <= SOON ? 'soon' : 'later';
}

const URGENCIES: readonly Urgency[] = ['overdue', 'soon', 'later', 'unknown'];

/** The most urgent first; of the same urgency what has no day, since only its hours are known, then by day. */
export function byUrgency(items: readonly DueItem[]): DueItem[] {
  const rank = ({ urgency }: DueItem) => URGENCIES.indexOf(urgency);
  return items.toSorted((one, other) => rank(one) - rank(other) || (one.on ?? '').localeCompare(other.on ?? ''));
}

/** `lens in 4 h`, `M2 in 11 days`, `M2 overdue since 2026-06-07`, `M2 drifts out about 2026-07-30`. */
export function dueInBrief(item: DueItem, today: string): string {
  const { kind, part, on, hours } = item;
  if (kind === 'drift') return `${part} drifts out about ${on}`;
  if (isProbablyPast(item, today)) return `${part} probably due since ${on}`;
  if (hours && hours.left >= 0) return `${part} in ${hoursOfWork(hours.left)}`;
  const days = on === undefined ? -1 : daysBetween(today, on);
  return days > 0 ? `${part} in ${inDays(days)}` : `${part} ${whenInWords(item, today)}`;
}

/** The counter was not read since, so that only the hours worked before show it. */
function isProbablyPast({ hours, on }: DueItem, today: string): boolean {
  return hours !== undefined && hours.left >= 0 && on !== undefined && on < today;
}

function inDays(days: number): string {
  return days === 1 ? '1 day' : `${days} days`;
}

/** `in 4 h, at 1244 h`, `2026-06-07, in 18 days`, `overdue since 1244 h`, or why that is not known. */
export function whenInWords(item: DueItem, today: string): string {
  const { kind, on, hours, because } = item;
  if (because !== undefined) return `not known: ${because}`;
  if (kind === 'drift') return `about ${on}`;
  if (isProbablyPast(item, today)) return `at ${hoursOfWork(hours!.at)}, probably since ${on}`;
  if (hours)
    return hours.left < 0
      ? `overdue since ${hoursOfWork(hours.at)}`
      : `in ${hoursOfWork(hours.left)}, at ${hoursOfWork(hours.at)}${on === undefined ? '' : `, about ${on}`}`;
  const days = daysBetween(today, on!);
  if (days < 0) return `overdue since ${on}`;
  return days === 0 ? 'due today' : `${on}, in ${inDays(days)}`;
}
