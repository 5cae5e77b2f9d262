/**
 * How long a plumb measured by tapes on the bed remains valid. The model predicts the effect of turns on it, but it
 * cannot detect a turn that was logged and not made, or a screw that slipped. So the measurement is valid only if it
 * was within its limit, and while the turns since are too small to bring it out again.
 */
import type { Slope } from '../model/index.ts';
import { screwKey, items, prior, type SharedList, type System } from '../machine/index.ts';
import { plumbFrom } from './line-through.ts';
import type { LoggedReading } from './logged-reading.ts';

export interface Plumbed {
  readonly slope: Slope;
  /** When it was shot, as the index of its entry. */
  readonly order: number;
  /** Net turns since, by `screwKey`. */
  readonly turns: ReadonlyMap<string, number>;
}

type All = ReadonlyMap<string, Plumbed>;

/** @param round the readings of the station that are still valid, those of this cell included */
export function withTapes(
  all: All,
  station: string,
  cell: readonly LoggedReading[],
  round: SharedList<LoggedReading>,
): All {
  if (cell.every(({ height }) => height === 0)) return all;
  if (missesBed(cell)) return without(all, station);
  const slope = plumbFrom(cell) ?? plumbInRound(items(round));
  return slope ? new Map(all).set(station, { slope, order: cell[0]!.order, turns: new Map() }) : all;
}

function plumbInRound(round: readonly LoggedReading[]): Slope | undefined {
  return missesBed(round) ? undefined : plumbFrom(round);
}

/** A tape on the bed that the beam missed shows only that the beam is further out of plumb than expected. */
export function missesBed(readings: readonly LoggedReading[]): boolean {
  return readings.some(({ height, none }) => height > 0 && none);
}

export function without(all: All, station: string): All {
  return new Map([...all].filter(([name]) => name !== station));
}

export function turned(all: All, key: string, turns: number): All {
  return new Map(
    [...all].map(([name, measured]) => [name, { ...measured, turns: withTurns(measured.turns, [[key, turns]]) }]),
  );
}

function withTurns(turns: Plumbed['turns'], more: Iterable<readonly [string, number]>): Plumbed['turns'] {
  const sum = new Map(turns);
  for (const [key, by] of more) sum.set(key, (sum.get(key) ?? 0) + by);
  return sum;
}

/** The fraction of the limit by which turns may have changed the plumb. */
const LITTLE = 0.5;

/**
 * Whether the measured plumb is still valid.
 * @param more further turns, by `screwKey`
 */
export function isPlumbValid(
  system: System,
  plumbed: Plumbed | undefined,
  max: number,
  more: Plumbed['turns'] = new Map(),
): boolean {
  if (!plumbed) return false;
  const turns = withTurns(plumbed.turns, more);
  if (turns.size === 0) return true;
  const { right, up } = plumbed.slope;
  return Math.hypot(right, up) <= max && maxTilt(system, turns) <= LITTLE * max;
}

/** Upper bound of the change of the beam's direction by these turns, rad: a mirror turns it by twice its own tilt. */
function maxTilt(system: System, turns: Plumbed['turns']): number {
  return system.screws.reduce((sum, { part, screw, effect }) => {
    const tilt = effect ? Math.hypot(effect.right, effect.up) : Math.SQRT2 * prior(system.machine, 'screwTilt');
    return sum + 2 * tilt * Math.abs(turns.get(screwKey(part, screw)) ?? 0);
  }, 0);
}
