/** Drift between visits: a station as found minus as left. A move that is logged in between is no drift. */
import { chiSquareQuantile } from '../statistics/index.ts';
import {
  daysBetween,
  type Drift,
  type Entry,
  type LogEntry,
  type Moved,
  type NoDrift,
  type PlaceDrift,
} from '../model/index.ts';
import type { VisitedStation, VisitMark, DatedRound } from './visited-stations.ts';
import { farthest, fromMiddle, placeOf } from './station-marks.ts';

/** For each visit the drift since the last one before with marks here; undefined if there is none. */
export function driftsIn(
  visited: readonly VisitedStation[],
  entries: readonly LogEntry[],
): (Drift | NoDrift | undefined)[] {
  return visited.map((now, k) => {
    const before = visited.findLastIndex(({ left }, earlier) => earlier < k && left !== undefined);
    const then = visited[before];
    if (!now.found || !then?.left) return undefined;
    const moved =
      then.movedAfter ??
      [...visited.slice(before + 1, k), now].find(({ movedBefore }) => movedBefore !== undefined)?.movedBefore;
    const since = then.visit.number;
    if (moved === undefined) return driftFrom(since, then.left, now.found);
    return { since, because: { kind: 'moved', ...movedBy(entries[moved]!) } };
  });
}

function driftFrom(since: number, left: DatedRound, found: DatedRound): Drift | NoDrift {
  const shared = pairs(left, found);
  if (shared.length === 0) return { since, because: { kind: 'places' } };
  const days = left.date === undefined || found.date === undefined ? undefined : daysBetween(left.date, found.date);
  const [then, now] = [farthest(shared.map(({ from }) => from))!, farthest(shared.map(({ to }) => to))!];
  return {
    since,
    ...(days !== undefined && days >= 0 && { days }),
    places: shared.map((pair) => placeDrift(pair, days)),
    outward: { value: fromMiddle(now) - fromMiddle(then), u: Math.hypot(now.u, then.u) },
  };
}

interface Pair {
  readonly place: string;
  readonly from: VisitMark;
  readonly to: VisitMark;
}

/** Marks at the same place of the carriages. */
export function pairs(left: DatedRound, found: DatedRound): Pair[] {
  return [...left.marks].flatMap(([place, from]) => {
    const to = found.marks.get(place);
    return to ? [{ place, from, to }] : [];
  });
}

/** Reading noise only: two coordinates, each with its standard uncertainty. */
const BY_READING = chiSquareQuantile(0.95, 2);

function placeDrift({ from, to }: Pair, days: number | undefined): PlaceDrift {
  const [right, up, u] = [to.right - from.right, to.up - from.up, Math.hypot(from.u, to.u)];
  const perDay = days !== undefined && days > 0 ? { right: right / days, up: up / days, u: u / days } : undefined;
  return {
    ...placeOf(to),
    right,
    up,
    u,
    size: Math.hypot(right, up),
    isPlain: right ** 2 + up ** 2 > BY_READING * u ** 2,
    ...(perDay && { perDay }),
  };
}

export function movedBy({ entry, cell }: LogEntry): Moved {
  return { what: whatMoved(entry), cell };
}

function whatMoved(entry: Entry): string {
  switch (entry.kind) {
    case 'adjust':
      return `${entry.part} was ${Object.keys(entry.turns).length > 0 || entry.shift || !entry.lock ? 'adjusted' : LOCKED[entry.lock]}`;
    case 'care':
      return `${entry.part} was ${entry.did}`;
    case 'event':
      return `event: ${entry.what}`;
    case 'machine':
      return 'the machine cell was changed';
    default:
      return 'a cell with errors';
  }
}

const LOCKED = { tight: 'locked', loose: 'unlocked' } as const;
