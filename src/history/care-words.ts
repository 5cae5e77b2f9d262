/** The care history in words, the same in print and in the panel. Percentages with their standard uncertainty. */
import { listed } from '../words/index.ts';
import {
  hundredths,
  type ArrivalChange,
  type Between,
  type CareDone,
  type CareInterval,
  type CareHistory,
  type PartHistory,
  type PowerReading,
  type Transmission,
  type TransmissionChange,
  type Uncertain,
} from '../model/index.ts';

/**
 * `every 3 months; due 2026-06-07`; with today's date also whether it is overdue. Undefined for a part without an
 * interval.
 */
export function dueInWords({ every, due }: PartHistory, today?: string): string | undefined {
  if (!every || !due) return undefined;
  if ('unknown' in due) return `${everyInWords(every)}; ${WHY_NOT[due.unknown]}`;
  return `${everyInWords(every)}; ${'on' in due ? dayInWords(due.on, today) : counterInWords(due)}`;
}

function counterInWords({ at, left }: { readonly at: number; readonly left: number }): string {
  return left < 0 ? `overdue since ${hoursOfWork(at)}` : `due at ${hoursOfWork(at)}, in ${hoursOfWork(left)}`;
}

/** `1244 h`, `4.5 h` */
export function hoursOfWork(hours: number): string {
  return `${hundredths(hours)} h`;
}

const WHY_NOT = {
  hours: 'the hours of work are not logged',
  never: 'no care in this log yet',
  undated: 'the last care has no date',
  'too far': 'due date too far in the future',
} as const;

function dayInWords(on: string, today: string | undefined): string {
  if (today === undefined || today < on) return `due ${on}`;
  return today === on ? 'due today' : `overdue since ${on}`;
}

function everyInWords(every: CareInterval): string {
  if ('hours' in every) return `every ${every.hours} h of work`;
  if ('months' in every) return many(every.months, 'month');
  return every.days % 7 === 0 ? many(every.days / 7, 'week') : many(every.days, 'day');
}

function many(count: number, unit: string): string {
  return count === 1 ? `every ${unit}` : `every ${count} ${unit}s`;
}

/** `found hazy, removed and cleaned with lens tissue; flat side down, ring snug; by jv` */
export function careInWords({ found, did, with: using, refit, by }: CareDone): string {
  const cared = [found && `found ${found}`, did && `${did}${using === undefined ? '' : ` with ${using}`}`]
    .filter(Boolean)
    .join(', ');
  const put = Object.entries(refit ?? {})
    .map(([what, how]) => `${what} ${how}`)
    .join(', ');
  return [cared, put, by !== undefined && `by ${by}`].filter(Boolean).join('; ') || 'no details';
}

/** `57.5 ± 1.3 W` */
export function powerInWords({ mean, u }: PowerReading): string {
  return u === undefined ? 'no power arrived' : `${mean.toFixed(1)} ± ${u.toFixed(1)} W`;
}

/** `17.7 ± 4.0 % more than before; between: lens cleaned` */
export function arrivalInWords({ value, u, expanded, from, to, between }: ArrivalChange): string {
  const change = 100 * (value - 1);
  const size = `${Math.abs(change).toFixed(1)} ± ${(100 * u).toFixed(1)} % ${change < 0 ? 'less' : 'more'}`;
  const isSame = from.session === to.session;
  const comparison =
    Math.abs(value - 1) > expanded
      ? `${size} than ${isSame ? 'before' : `in session ${from.session}`}`
      : `no measurable change${isSame ? '' : ` since session ${from.session}`} (${size})`;
  const works = betweenInWords(between);
  return `${comparison}${works === '' ? '' : `; between: ${works}`}`;
}

function betweenInWords({ cleaned, replaced, moved, disturbed }: Between): string {
  const parts = (which: readonly string[], what: string) => (which.length === 0 ? [] : [`${listed(which)} ${what}`]);
  return [...parts(moved, 'adjusted'), ...parts(cleaned, 'cleaned'), ...parts(replaced, 'replaced'), ...disturbed].join(
    ', ',
  );
}

/** `M1`, `M1 and M2 together` */
export function throughInWords(through: readonly string[]): string {
  return through.length > 1 ? `${listed(through)} together` : listed(through);
}

/** `96.2 ± 2.7 %`; a transmission above 100 % is reported as an error. */
export function transmissionInWords({ value, u, expanded }: Transmission): string {
  return `${percentInWords({ value, u })}${value - 1 > expanded ? '; more than arrives, so one of the two readings is wrong' : ''}`;
}

/** `7.5 ± 3.8 points less than in session 1 (98.5 ± 2.8 %)` */
export function changeInWords({ value, u, expanded, then, cleaned }: TransmissionChange): string {
  const was = `session ${then.to.session} (${percentInWords(then)})`;
  const although =
    cleaned.length > 0 ? `, although ${listed(cleaned)} ${cleaned.length > 1 ? 'were' : 'was'} cleaned since` : '';
  if (Math.abs(value) <= expanded) return `no measurable change from ${was}`;
  return value < 0 ? `${points(value, u)} less than in ${was}${although}` : `${points(value, u)} more than in ${was}`;
}

function percentInWords({ value, u }: Pick<Uncertain, 'value' | 'u'>): string {
  return `${(100 * value).toFixed(1)} ± ${(100 * u).toFixed(1)} %`;
}

function points(value: number, u: number): string {
  return `${(100 * Math.abs(value)).toFixed(1)} ± ${(100 * u).toFixed(1)} points`;
}

/** The significant results, in sentences; empty if no difference exceeds its uncertainty. */
export function careSentences({ parts, weakest, worn, transmissions }: CareHistory): string[] {
  return [
    ...parts.flatMap(({ part, left }) =>
      left === undefined ? [] : [`${part} was last found ${left}, and the log shows no remedy.`],
    ),
    ...(worn
      ? [`Largest loss at ${throughInWords(worn.through)}: ${changeInWords(worn)}${sinceInWords(worn, transmissions)}.`]
      : []),
    ...(weakest ? [`Lowest transmission at ${weakest.part}: ${percentInWords(weakest.transmission)}.`] : []),
  ];
}

/** The transmission later in the session, if measured again. */
function sinceInWords({ now, through }: TransmissionChange, transmissions: readonly Transmission[]): string {
  const last = transmissions.findLast(
    (one) => one.to.session === now.to.session && one.through.join() === through.join(),
  );
  return last && last !== now ? `; later in the session ${percentInWords(last)}` : '';
}
