/**
 * Optics with a far lower transmission than clean ones, from the last power readings of each visit. A clean optic loses
 * one or two per cent (common practice, no source). A loss is reported only if it is significant: the whole 95 %
 * interval of the transmission is at least 10 % below that of clean optics.
 */
import { visitsIn, type LogEntry, type Machine, type Uncertain } from '../model/index.ts';
import { isUsable, meterOf } from './care.ts';
import { quotient, uncertain, type Meter } from './meter.ts';
import { powerIn, type Power } from './power.ts';

/** A significant loss of power. */
export interface PowerLoss {
  /** The optics from one measured station to the next. */
  readonly through: readonly string[];
  readonly transmission: Uncertain;
  /** The transmission of as many clean optics. */
  readonly clean: number;
  /** Index of the entry of the later of the two readings. */
  readonly order: number;
}

/** Transmission of one clean optic. */
const CLEAN = 0.985;
/** Fraction of the clean transmission below which a loss is reported. */
const WORN = 0.9;

/** In the order of the log. Later visits do not change the result of an earlier one. */
export function powerLosses(entries: readonly LogEntry[]): PowerLoss[] {
  if (!entries.some(({ entry }) => entry.kind === 'power')) return [];
  const power = powerIn(entries, visitsIn(entries));
  const meters = new Map<number, Meter>();
  return latest(power)
    .flatMap((pair): PowerLoss[] => {
      const machine = machineAt(entries, pair.to.order);
      const through = machine ? opticsIn(machine, pair.through) : [];
      const amount = quotient(pair.to, pair.from);
      if (through.length === 0 || !isUsable(amount)) return [];
      const { session } = pair.to;
      const how =
        meters.get(session) ?? meterOf({ readings: power.readings.filter((one) => one.session <= session) }, machine);
      meters.set(session, how);
      const transmission = uncertain(amount, how);
      const clean = CLEAN ** through.length;
      const order = Math.max(pair.from.order, pair.to.order);
      return transmission.value + transmission.expanded <= WORN * clean
        ? [{ through, transmission, clean, order }]
        : [];
    })
    .toSorted((one, other) => one.order - other.order);
}

type Pair = Power['pairs'][number];

/** For each visit and section of the path, the last pair of readings. */
function latest({ pairs }: Power): Pair[] {
  return [...new Map(pairs.map((pair) => [`${pair.to.session} ${pair.through.join()}`, pair])).values()];
}

function machineAt(entries: readonly LogEntry[], order: number): Machine | undefined {
  for (let k = order; k >= 0; k--) {
    const { entry } = entries[k]!;
    if (entry.kind === 'machine') return entry.machine;
  }
  return undefined;
}

/** Optics only: an aperture absorbs no power except by clipping. */
function opticsIn({ path }: Machine, names: readonly string[]): string[] {
  return path.filter(({ name, kind }) => kind !== 'station' && names.includes(name)).map(({ name }) => name);
}
