/** Forecasts when the marks of a station will be out of limits if the drift continues. */
import type { Log } from '../evaluation/index.ts';
import {
  addDays,
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
import { type Matrix, variance } from '../statistics/index.ts';
import { pairs } from './drift.ts';
import type { VisitedStation, VisitMark, DatedRound } from './visited-stations.ts';
import { placeOf } from './station-marks.ts';
import { chanceOutside, chancesWithin, trend, type Interval, type Trend } from './trend.ts';

export interface History {
  readonly name: string;
  readonly visited: readonly VisitedStation[];
  readonly drifts: readonly (Drift | NoDrift | undefined)[];
}

/** Older intervals add little. */
export const MOST_INTERVALS = 24;
/** One interval gives no trend: it cannot separate a steady drift from a random walk. */
const FEWEST = 2;

/** Undefined for a station without two visits between which nothing was moved. */
export function forecastOf(history: History, entries: readonly LogEntry[], log: Log): Forecast | undefined {
  const basis = basisOf(history, entries, log);
  if (basis === undefined) return undefined;
  return { station: history.name, ...(typeof basis === 'string' ? { because: basis } : outlook(basis)) };
}

/** Days for which a band is computed, from the last marks to its end. */
const STRETCHES = 6;
/** Distances at which the probability is computed; an edge is interpolated linearly. */
const DISTANCES = 24;

/**
 * The band of the maximum distance from the centre, mm: below `most` with the confidence that the limits require, above
 * `least` with the same. It ends on the day on which `most` equals the limit, else with the forecast.
 */
export function bandAhead(
  history: History,
  entries: readonly LogEntry[],
  log: Log,
  { unsure, until }: Outlook,
): Band[] {
  const basis = basisOf(history, entries, log);
  if (basis === undefined || typeof basis === 'string') return [];
  const { trend, processNoise, marks, limit, from, confidence } = basis;
  const last = (unsure ?? until).days;
  const days = [...new Set(Array.from({ length: STRETCHES + 1 }, (_, k) => Math.round((last * k) / STRETCHES)))];
  return days.flatMap((day): Band[] => {
    const on = addDays(from, day);
    const highest =
      2 *
      Math.max(
        limit,
        ...marks.map((mark, k) =>
          Math.hypot(mark.right + day * trend.rate[2 * k]!, mark.up + day * trend.rate[2 * k + 1]!),
        ),
      );
    const distances = Array.from({ length: DISTANCES }, (_, k) => (highest * (k + 1)) / DISTANCES);
    const chances = chancesWithin(trend, processNoise, marks, distances, day);
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

/** The distance below which the marks are with this probability. */
function distanceAt(chance: number, distances: readonly number[], chances: readonly number[]): number {
  const above = chances.findIndex((one) => one >= chance);
  if (above < 0) return distances.at(-1)!;
  const [from, low] = above === 0 ? [0, 0] : [distances[above - 1]!, chances[above - 1]!];
  const high = chances[above]!;
  return high === low ? distances[above]! : from + ((chance - low) / (high - low)) * (distances[above]! - from);
}

type Refused = Extract<Forecast, { because: unknown }>['because'];

/** The data of a forecast, or why there is none; undefined as for `forecastOf`. */
function basisOf(history: History, entries: readonly LogEntry[], log: Log): Basis | Refused | undefined {
  const intervals = driftIntervals(history);
  if (intervals.length === 0) return undefined;
  const left = history.visited.findLast((one) => one.left !== undefined)!.left!;
  const limits = limitsIn(entries);
  const limit = limits && lookup(limits.stations, history.name)?.centre;
  if (!limits || limit === undefined) return 'limit';
  if (left.report.readings.some(({ none }) => none)) return 'missed';
  if (hasMoved(history.visited)) return 'moved';
  const dated = intervals.filter(({ days }) => days > 0).slice(-MOST_INTERVALS);
  if (left.date === undefined || intervals.every(({ days }) => Number.isNaN(days))) return 'undated';
  const places = [...left.marks].filter(
    ([place]) => dated.filter(({ then, now }) => then.marks.has(place) && now.marks.has(place)).length >= FEWEST,
  );
  if (places.length === 0) return 'intervals';
  const marks = places.map(([, mark]) => mark);
  const processNoise = log.driftCovariance(
    history.name,
    marks.map(({ carriages }) => carriages),
  );
  const estimate =
    processNoise &&
    trend(
      dated.map((one) =>
        intervalOf(
          one,
          places.map(([place]) => place),
        ),
      ),
      processNoise,
      marks,
    );
  // Without a beam that reaches the tape there is no forecast.
  if (!processNoise || !estimate) return 'missed';
  return { trend: estimate, processNoise, marks, limit, from: left.date, confidence: limits.confidence, dated };
}

interface DriftInterval {
  readonly then: DatedRound;
  readonly now: DatedRound;
  /** NaN if unknown. */
  readonly days: number;
}

function driftIntervals({ visited, drifts }: History): DriftInterval[] {
  return drifts.flatMap((drift, k) => {
    const then =
      drift && 'places' in drift ? visited.find(({ visit }) => visit.number === drift.since)?.left : undefined;
    return drift && 'places' in drift && then ? [{ then, now: visited[k]!.found!, days: drift.days ?? NaN }] : [];
  });
}

function hasMoved(visited: readonly VisitedStation[]): boolean {
  const last = visited.findLastIndex(({ left }) => left !== undefined);
  return (
    visited[last]?.movedAfter !== undefined ||
    visited.slice(last + 1).some(({ movedBefore }) => movedBefore !== undefined)
  );
}

/** The limits in force at the end; undefined if they cannot be read. */
export function limitsIn(entries: readonly LogEntry[]): Limits | undefined {
  const last = entries.findLast(
    ({ entry }) => entry.kind === 'limits' || (entry.kind === 'unread' && entry.of === 'limits'),
  )?.entry;
  return last?.kind === 'limits' ? last.limits : undefined;
}

function intervalOf({ then, now, days }: DriftInterval, places: readonly string[]): Interval {
  return {
    days,
    moved: new Map(
      pairs(then, now)
        .filter(({ place }) => places.includes(place))
        .map(({ place, from, to }) => [places.indexOf(place), { from, to }]),
    ),
  };
}

interface Basis {
  readonly trend: Trend;
  readonly processNoise: Matrix;
  readonly marks: readonly VisitMark[];
  readonly limit: number;
  readonly from: string;
  readonly confidence: number;
  readonly dated: readonly DriftInterval[];
}

/** The forecast ends after this multiple of the observed days. */
const AHEAD = 2;
/** Number of days at which the probability is computed; a day in between is found by bisection. */
const LOOKS = 16;

function outlook({ trend, processNoise, marks, limit, from, confidence, dated }: Basis): Outlook {
  const total = dated.reduce((sum, { days }) => sum + days, 0);
  const end = AHEAD * total;
  const dayAt = (days: number): Day | undefined => {
    const on = addDays(from, days);
    return on === undefined ? undefined : { days, on };
  };
  const outside = (days: number) => chanceOutside(trend, processNoise, marks, limit, days);
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
    days: total,
    rates: marks.map((mark, k) => ({
      ...placeOf(mark),
      right: trend.rate[2 * k]!,
      up: trend.rate[2 * k + 1]!,
      uRight: uncertaintyOf(trend, 2 * k),
      uUp: uncertaintyOf(trend, 2 * k + 1),
    })),
    ...(unsure !== undefined && { unsure: dayAt(unsure)! }),
    ...(even !== undefined && { even: dayAt(even)! }),
    until: { days: chances.at(-1)!.days, on: chances.at(-1)!.on },
    chances,
  };
}

function uncertaintyOf({ covariance }: Trend, index: number): number {
  return Math.sqrt(variance(covariance, index));
}

/** The first day on which the probability exceeds `level`. */
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
