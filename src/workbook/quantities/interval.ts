/** Care intervals: `every 3 months`, `every 2 weeks`, `every 40 h` (hours of work), `every month`. */
import { nearest, type CareInterval } from '../../model/index.ts';
import { problem, quoted, read, refuse, tooLong, type Reading } from './reading.ts';

/** Calendar months (a year is twelve) or days (a week is seven), or hours of work. */
const UNITS: Readonly<Record<string, (count: number) => CareInterval>> = {
  h: (hours) => ({ hours }),
  hour: (hours) => ({ hours }),
  day: (days) => ({ days }),
  week: (weeks) => ({ days: 7 * weeks }),
  month: (months) => ({ months }),
  year: (years) => ({ months: 12 * years }),
};

const FORM = /^\s*every(?:\s+(\d{1,6}(?:\.\d{1,6})?))?\s*([A-Za-z]+)\s*$/;

/** Problems: `interval.unreadable`. Calendar intervals are whole numbers; all are positive. */
export function readInterval(text: string): Reading<CareInterval> {
  const long = tooLong(text);
  if (long) return long;
  const [, number, word = ''] = FORM.exec(text) ?? [];
  const count = Number(number ?? 1);
  const name = Object.keys(UNITS).find((unit) => word === unit || word === `${unit}s`);
  const whole = name === 'h' || name === 'hour' || Number.isInteger(count);
  if (name && count > 0 && whole) return read(UNITS[name]!(count));
  const from = text.length - text.trimStart().length;
  const to = Math.max(from, text.trimEnd().length);
  const suggestion = name
    ? undefined
    : nearest(
        word,
        Object.keys(UNITS).flatMap((unit) => [unit, `${unit}s`]),
      );
  const at = suggestion ? text.lastIndexOf(word) : from;
  const facts = { text: quoted(text), ...(suggestion && { suggestion }) };
  return refuse(problem('interval.unreadable', at, suggestion ? at + word.length : to, facts, suggestion));
}
