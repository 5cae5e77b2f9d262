/** Calendar days as text, `2026-03-14`. Nothing here asks the clock or a time zone: a day is the day that was written. */
import type { CareInterval } from './machine.ts';

const DAY = 24 * 3600 * 1000;

/** The day of a date as the log has it, which may carry a time. */
export function dayOf(date: string): string {
  return date.trim().slice(0, 10);
}

/** From one day to a later one; negative where it is earlier. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(dayOf(to)) - Date.parse(dayOf(from))) / DAY);
}

/** So many days on; undefined past the year 9999. */
export function daysAfter(date: string, days: number): string | undefined {
  return written(Date.parse(dayOf(date)) + days * DAY);
}

/** The day on which the interval ends; a month that is too short ends it on its last day. Hours are not on a calendar. */
export function intervalAfter(date: string, every: Exclude<CareInterval, { hours: number }>): string | undefined {
  if ('days' in every) return daysAfter(date, every.days);
  const [year, month, day] = dayOf(date).split('-').map(Number) as [number, number, number];
  const last = new Date(Date.UTC(year, month + every.months, 0)).getUTCDate();
  return written(Date.UTC(year, month - 1 + every.months, Math.min(day, last)));
}

const LAST = Date.UTC(9999, 11, 31);

function written(milliseconds: number): string | undefined {
  return milliseconds <= LAST ? new Date(milliseconds).toISOString().slice(0, 10) : undefined;
}
