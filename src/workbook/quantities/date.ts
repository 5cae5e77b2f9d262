/**
 * Dates in ISO 8601, checked against the calendar: `2026-03-14`, `2026-03-14 10:20`, `2026-03-14T10:20:30Z`,
 * `2026-03-14 10:20+01:00`. Independent of the computer's clock and time zone.
 */
import { problem, quoted, read, refuse, tooLong, type QuantityProblem, type Reading } from './reading.ts';

/** A date as written, with what it contains. */
export interface WrittenDate {
  readonly year: number;
  /** 1 … 12 */
  readonly month: number;
  readonly day: number;
  /** absent if only the day was written */
  readonly time?: { readonly hour: number; readonly minute: number; readonly second: number };
  /** minutes east of UTC, if written */
  readonly offset?: number;
  /** since 1970-01-01 UTC; without an offset as if in UTC, without a time at midnight */
  readonly milliseconds: number;
}

const ISO =
  /^\s*(\d{4})-(\d{2})-(\d{2})(?:(?:[Tt]|[ ]+)(\d{2}):(\d{2})(?::(\d{2}(?:\.\d{1,9})?))?[ ]*(?:([Zz])|([+-])(\d{2}):?(\d{2}))?)?\s*$/;

/** Problems: `date.unreadable`, `date.calendar`. */
export function readDate(text: string): Reading<WrittenDate> {
  const long = tooLong(text);
  if (long) return long;
  const match = ISO.exec(text);
  if (!match) return refuse(unreadable(text));
  const [year, month, day, hour, minute, second] = match.slice(1, 7).map((part) => Number(part ?? 0)) as number[];
  const offset = offsetOf(match);
  const clock = { hour: hour!, minute: minute!, second: second! };
  const onClock = clock.hour < 24 && clock.minute < 60 && clock.second < 60 && Math.abs(offset ?? 0) <= 14 * 60;
  if (year! < 1000 || !onCalendar(year!, month!, day!) || !onClock) {
    const from = text.length - text.trimStart().length;
    return refuse(problem('date.calendar', from, text.trimEnd().length, { text: quoted(text) }));
  }
  const local = Date.UTC(year!, month! - 1, day!, clock.hour, clock.minute) + clock.second * 1000;
  return read({
    year: year!,
    month: month!,
    day: day!,
    ...(match[4] !== undefined && { time: clock }),
    ...(offset !== undefined && { offset }),
    milliseconds: local - (offset ?? 0) * 60_000,
  });
}

function offsetOf(match: RegExpExecArray): number | undefined {
  const [zulu, sign, hours, minutes] = match.slice(7, 11);
  if (zulu) return 0;
  return sign === undefined ? undefined : (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes)) + 0;
}

function onCalendar(year: number, month: number, day: number): boolean {
  return month >= 1 && month <= 12 && day >= 1 && day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** A fix if the order of year, month and day is unambiguous: `2026/3/4` → `2026-03-04`. */
function unreadable(text: string): QuantityProblem {
  const from = text.length - text.trimStart().length;
  const loose = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/.exec(text.trim());
  const fix = loose ? [loose[1], loose[3]!.padStart(2, '0'), loose[4]!.padStart(2, '0')].join('-') : undefined;
  return problem('date.unreadable', from, Math.max(from, text.trimEnd().length), { text: quoted(text) }, fix);
}
