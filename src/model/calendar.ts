/**
 * Calendar days as text, `2026-03-14`. Neither the clock nor a time zone is used: a day is the day that was written.
 */
import type { CareInterval } from './machine.ts';

const DAY = 24 * 3600 * 1000;

/** The day of a date in the log, which may carry a time. */
export function dayOf(date: string): string {
  return date.trim().slice(0, 10);
}

/** Days from one day to another; negative if the second is earlier. */
export function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(dayOf(to)) - Date.parse(dayOf(from))) / DAY);
}

/** Adds days; undefined past the year 9999. */
export function addDays(date: string, days: number): string | undefined {
  return written(Date.parse(dayOf(date)) + days * DAY);
}

/**
 * The day on which the interval ends; in a month that is too short, its last day. Hours cannot be counted on a
 * calendar.
 */
export function addInterval(date: string, every: Exclude<CareInterval, { hours: number }>): string | undefined {
  if ('days' in every) return addDays(date, every.days);
  const [year, month, day] = dayOf(date).split('-').map(Number) as [number, number, number];
  const last = new Date(Date.UTC(year, month + every.months, 0)).getUTCDate();
  return written(Date.UTC(year, month - 1 + every.months, Math.min(day, last)));
}

const LAST = Date.UTC(9999, 11, 31);

function written(milliseconds: number): string | undefined {
  return milliseconds <= LAST ? new Date(milliseconds).toISOString().slice(0, 10) : undefined;
}
