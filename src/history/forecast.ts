/** When the marks of a station will be too far from the middle, if it goes on as it has done. */
import type { Log } from '../evaluation/index.ts';
import {
  daysAfter,
  lookup,
  type Band,
  type Day,
  type Drift,
  type Forecast,
  type Limits,
  type LogEntry,
  type NoDrift,
  type Outlook,
} from '../model/index.ts';
import type { Matrix } from '../statistics/index.ts';
import { pairs } from './drift.ts';
import type { Seen, SeenMark, SeenRound } from './seen.ts';
import { spotOf } from './station-marks.ts';
import { chanceOutside, chancesWithin, trend, type Interval, type Trend } from './trend.ts';

export interface History {
  readonly name: string;
  readonly seen: readonly Seen[];
  readonly drifts: readonly (Drift | NoDrift | undefined)[];
}

/** More of the past says little that is new. */
export const MOST_INTERVALS = 24;
/** One interval is no trend: a steady drift and a walk cannot be told apart. */
const FEWEST = 2;

/** Nothing for a station that was not seen twice with nothing moved in between. */
export function forecastOf(history: History, entries: readonly LogEntry[], log: Log): Forecast | undefined {
  const going = goingOn(history, entries, log);
  if (going === undefined) return undefined;
  return { station: history.name, ...(typeof going === 'string' ? { because: going } : outlook(going)) };
}

/** Days at which a band is looked at, from the last marks to its end. */
const STRETCHES = 6;
/** Distances that are looked at for an edge of it; the edge lies on a line between two of them. */
const DISTANCES = 24;

/**
 * Between what distances from the middle, mm, the mark farthest from it will be: below `most` as surely as the limits ask,
 * above `least` just as surely. Up to the day on which `most` is the limit, or else as far as anything is said.
 */
export function bandAhead(
  history: History,
  entries: readonly LogEntry[],
  log: Log,
  { unsure, until }: Outlook,
): Band[] {
  const going = goingOn(history, entries, log);
  if (going === undefined || typeof going === 'string') return [];
  const { found, wander, marks, limit, from, confidence } = going;
  const last = (unsure ?? until).days;
  const days = [...new Set(Array.from({ length: STRETCHES + 1 }, (_, k) => Math.round((last * k) / STRETCHES)))];
  return days.flatMap((day): Band[] => {
    const on = daysAfter(from, day);
    const highest =
      2 *
      Math.max(
        limit,
        ...marks.map((mark, k) =>
          Math.hypot(mark.right + day * found.rate[2 * k]!, mark.up + day * found.rate[2 * k + 1]!),
        ),
      );
    const distances = Array.from({ length: DISTANCES }, (_, k) => (highest * (k + 1)) / DISTANCES);
    const chances = chancesWithin(found, wander, marks, distances, day);
    return on === undefined
      ? []
      : [
          {
            days: day,
            on,
            least: distanceAt(1 - confidence, distances, chances),
            most: distanceAt(confidence, distances, chances),
          },
        ];
  });
}

/** The distance below which the marks are with this chance. */
function distanceAt(chance: number, distances: readonly number[], chances: readonly number[]): number {
  const above = chances.findIndex((one) => one >= chance);
  if (above < 0) return distances.at(-1)!;
  const [from, low] = above === 0 ? [0, 0] : [distances[above - 1]!, chances[above - 1]!];
  const high = chances[above]!;
  return high === low ? distances[above]! : from + ((chance - low) / (high - low)) * (distances[above]! - from);
}

type Refused = Extract<Forecast, { because: unknown }>['because'];

/** What a forecast rests on, or why there is none; nothing at all as above. */
function goingOn(history: History, entries: readonly LogEntry[], log: Log): Going | Refused | undefined {
  const watched = watchedIn(history);
  if (watched.length === 0) return undefined;
  const left = history.seen.findLast((one) => one.left !== undefined)!.left!;
  const limits = limitsIn(entries);
  const limit = limits && lookup(limits.stations, history.name)?.centre;
  if (!limits || limit === undefined) return 'limit';
  if (left.report.readings.some(({ none }) => none)) return 'missed';
  if (hasMoved(history.seen)) return 'moved';
  const dated = watched.filter(({ days }) => days > 0).slice(-MOST_INTERVALS);
  if (left.date === undefined || watched.every(({ days }) => Number.isNaN(days))) return 'undated';
  const places = [...left.marks].filter(
    ([place]) => dated.filter(({ then, now }) => then.marks.has(place) && now.marks.has(place)).length >= FEWEST,
  );
  if (places.length === 0) return 'intervals';
  const marks = places.map(([, mark]) => mark);
  const wander = log.driftCovariance(
    history.name,
    marks.map(({ carriages }) => carriages),
  );
  const found =
    wander &&
    trend(
      dated.map((one) =>
        intervalOf(
          one,
          places.map(([place]) => place),
        ),
      ),
      wander,
      marks,
    );
  // No beam that reaches the tape, no forecast.
  if (!wander || !found) return 'missed';
  return { found, wander, marks, limit, from: left.date, confidence: limits.confidence, dated };
}

interface Watched {
  readonly then: SeenRound;
  readonly now: SeenRound;
  /** NaN where nobody knows. */
  readonly days: number;
}

function watchedIn({ seen, drifts }: History): Watched[] {
  return drifts.flatMap((drift, k) => {
    const then = drift && 'places' in drift ? seen.find(({ visit }) => visit.number === drift.since)?.left : undefined;
    return drift && 'places' in drift && then ? [{ then, now: seen[k]!.found!, days: drift.days ?? NaN }] : [];
  });
}

function hasMoved(seen: readonly Seen[]): boolean {
  const last = seen.findLastIndex(({ left }) => left !== undefined);
  return (
    seen[last]?.movedAfter !== undefined || seen.slice(last + 1).some(({ movedBefore }) => movedBefore !== undefined)
  );
}

/** Those in force at the end; limits that cannot be read are none. */
export function limitsIn(entries: readonly LogEntry[]): Limits | undefined {
  const last = entries.findLast(
    ({ entry }) => entry.kind === 'limits' || (entry.kind === 'unread' && entry.of === 'limits'),
  )?.entry;
  return last?.kind === 'limits' ? last.limits : undefined;
}

function intervalOf({ then, now, days }: Watched, places: readonly string[]): Interval {
  return {
    days,
    moved: new Map(
      pairs(then, now)
        .filter(({ place }) => places.includes(place))
        .map(({ place, from, to }) => [places.indexOf(place), { from, to }]),
    ),
  };
}

interface Going {
  readonly found: Trend;
  readonly wander: Matrix;
  readonly marks: readonly SeenMark[];
  readonly limit: number;
  readonly from: string;
  readonly confidence: number;
  readonly dated: readonly Watched[];
}

/** Nothing is said of more days than so many times those that were watched. */
const AHEAD = 2;
/** Looks between now and the end; between two of them the day is found by halving. */
const LOOKS = 16;

function outlook({ found, wander, marks, limit, from, confidence, dated }: Going): Outlook {
  const watched = dated.reduce((sum, { days }) => sum + days, 0);
  const end = AHEAD * watched;
  const dayAt = (days: number): Day | undefined => {
    const on = daysAfter(from, days);
    return on === undefined ? undefined : { days, on };
  };
  const outside = (days: number) => chanceOutside(found, wander, marks, limit, days);
  const looks = [...new Set(Array.from({ length: LOOKS + 1 }, (_, k) => Math.round((end * k) / LOOKS)))];
  const chances = looks.flatMap((days) => {
    const day = dayAt(days);
    return day ? [{ ...day, outside: outside(days) }] : [];
  });
  const unsure = firstDay(chances, outside, 1 - confidence);
  const even = firstDay(chances, outside, 0.5);
  return {
    from,
    limit,
    confidence,
    intervals: dated.length,
    days: watched,
    rates: marks.map((mark, k) => ({
      ...spotOf(mark),
      right: found.rate[2 * k]!,
      up: found.rate[2 * k + 1]!,
      uRight: uncertaintyOf(found, 2 * k),
      uUp: uncertaintyOf(found, 2 * k + 1),
    })),
    ...(unsure !== undefined && { unsure: dayAt(unsure)! }),
    ...(even !== undefined && { even: dayAt(even)! }),
    until: { days: chances.at(-1)!.days, on: chances.at(-1)!.on },
    chances,
  };
}

function uncertaintyOf({ covariance }: Trend, index: number): number {
  return Math.sqrt(covariance.data[index * (covariance.columns + 1)]!);
}

/** The first day on which the chance exceeds `level`. */
function firstDay(chances: Outlook['chances'], outside: (days: number) => number, level: number): number | undefined {
  const next = chances.findIndex((look) => look.outside > level);
  if (next <= 0) return next < 0 ? undefined : chances[0]!.days;
  let [below, above] = [chances[next - 1]!.days, chances[next]!.days];
  while (above - below > 1) {
    const middle = Math.floor((below + above) / 2);
    if (outside(middle) > level) above = middle;
    else below = middle;
  }
  return above;
}
