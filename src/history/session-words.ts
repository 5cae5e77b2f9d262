/**
 * Visits, drift and forecasts in words, the same in print and in the panel: lengths in the machine's units with their
 * standard uncertainty.
 */
import { bracketed, markInWords, placeInWords, verdictInWords } from '../words/index.ts';
import {
  hundredths,
  lengthsIn,
  type Units,
  type Drift,
  type Forecast,
  type Measured,
  type NoDrift,
  type Outlook,
  type PlaceDrift,
  type SessionReport,
  type StationInSession,
  type StationMarks,
} from '../model/index.ts';

/** `session 2: autumn check, 2026-09-12, routine, by jv` */
export function sessionInWords({ number, title, date, reason, by }: SessionReport): string {
  const words = [title, date, reason, by !== undefined && `by ${by}`].filter(Boolean).join(', ');
  return `session ${number}${words === '' ? '' : `: ${words}`}`;
}

/** `0.7 ± 0.3 mm from the centre (gantry far), 0.5 ± 0.4 mm apart; within limits (probability within 96 %)` */
export function marksInWords(
  { centre, spread, lean, missed, state, probability }: StationMarks,
  { carriages = [], frame }: StationInSession,
): string {
  const { measured } = lengthsIn(frame?.units ?? 'mm');
  const place = centre ? placeInWords(carriages, centre.at, centre.with) : '';
  const words =
    [
      centre && `${measured(centre)} from the centre${bracketed(place)}`,
      spread && `${measured(spread)} apart`,
      lean && `${lean.value.toFixed(1)} ± ${lean.u.toFixed(1)} mrad out of plumb`,
      missed > 0 && `${missed === 1 ? 'one tape' : `${missed} tapes`} missed`,
    ]
      .filter(Boolean)
      .join(', ') || 'no complete mark';
  return `${words}; ${roundInWords(state, probability)}`;
}

/** The state of a round at its last mark. */
function roundInWords(state: StationMarks['state'], probability: number | undefined): string {
  if (state === 'unlimited') return 'no limits';
  if (state === 'incomplete') return 'not shot at every place';
  return probability === undefined ? state : verdictInWords(state, probability);
}

/**
 * `since session 1, 189 days: gantry far 1.1 right (machine left) 0.5 down (each ± 0.4 mm); 0.7 ± 0.4 mm farther from
 * the centre`
 */
export function driftInWords(drift: Drift | NoDrift, station: StationInSession): string {
  const since = `since session ${drift.since}`;
  if ('because' in drift) {
    return drift.because.kind === 'moved'
      ? `${since}: no comparison (${drift.because.what})`
      : `${since}: no comparison (no place has a complete mark in both)`;
  }
  const { days, places, outward } = drift;
  const span = days === undefined ? since : `${since}, ${days === 1 ? '1 day' : `${days} days`}`;
  const plain = places.filter(({ isPlain }) => isPlain);
  if (plain.length === 0) return `${span}: no measurable drift`;
  const rest = plain.length < places.length ? ['elsewhere no measurable drift'] : [];
  return `${span}: ${[...plain.map((place) => placeDriftInWords(place, station)), ...rest, outwardInWords(outward, station)].join('; ')}`;
}

function placeDriftInWords(
  { right, up, u, at, with: others }: PlaceDrift,
  { frame, carriages = [] }: StationInSession,
): string {
  const place = placeInWords(carriages, at, others);
  return `${place === '' ? '' : `${place} `}${markInWords(right, up, frame!)} (each ± ${lengthsIn(frame!.units).doubt(u)})`;
}

function outwardInWords({ value, u }: Measured, { frame }: StationInSession): string {
  if (Math.abs(value) < u) return 'distance from the centre unchanged';
  return `${lengthsIn(frame!.units).measured({ value: Math.abs(value), u })} ${value < 0 ? 'nearer to' : 'farther from'} the centre`;
}

/** In sentences. */
export function forecastInWords(forecast: Forecast, units: Units): string {
  return 'because' in forecast ? WHY_NONE[forecast.because] : outlookInWords(forecast, units);
}

const WHY_NONE = {
  intervals: 'No forecast: a trend needs two intervals, with dates and the same places shot.',
  limit: 'No forecast: the station has no centre limit.',
  moved: 'No forecast: something was moved after the last marks. Shoot the station again.',
  undated: 'No forecast: the sessions have no dates, or the dates are out of order.',
  missed: 'No forecast: the beam missed the tape.',
} as const;

function outlookInWords({ intervals, days, limit, confidence, unsure, even, until }: Outlook, units: Units): string {
  const sure = `within ${lengthsIn(units).given(limit)} with ${hundredths(100 * confidence)} % confidence`;
  const first = !unsure
    ? `Stays ${sure} until ${until.on}. No forecast beyond that date.`
    : unsure.days === 0
      ? `As left it is not ${sure}.`
      : `From ${unsure.on} on it is no longer ${sure}.`;
  const second = !even
    ? ''
    : even.days === 0
      ? ' It is already more likely outside than within.'
      : ` From ${even.on} on it is more likely outside than within.`;
  return `${first}${second} (From ${intervals} intervals, ${days} days in total.)`;
}
