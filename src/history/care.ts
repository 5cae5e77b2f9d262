/** The care history of a log: parts, power, the transmission of each optic, and its change since earlier sessions. */
import {
  lookup,
  PRIORS,
  visitsIn,
  type ArrivalChange,
  type CareHistory,
  type LogEntry,
  type Machine,
  type Occasion,
  type PowerReading,
  type PriorName,
  type Transmission,
  type TransmissionChange,
} from '../model/index.ts';
import { difference, isPower, meter, quotient, uncertain, type Amount, type Meter } from './meter.ts';
import { partsIn } from './parts.ts';
import { powerIn, type Power, type Read } from './power.ts';

/** The care history of a log, with the machine in force at its end. */
export function careHistory(entries: readonly LogEntry[]): CareHistory {
  const visits = visitsIn(entries);
  const machine = entries.findLast(({ entry }) => entry.kind === 'machine')?.entry as
    | { readonly machine: Machine }
    | undefined;
  const power = powerIn(entries, visits);
  const how = meterOf(power, machine?.machine);
  const transmissions = power.pairs.flatMap(({ through, from, to }): MeasuredTransmission[] => {
    const amount = quotient(to, from);
    return isUsable(amount)
      ? [{ from, to, amount, transmission: { through, from: place(from), to: place(to), ...uncertain(amount, how) } }]
      : [];
  });
  const changes = changesIn(transmissions, power, how);
  return {
    parts: partsIn(entries, visits, machine?.machine),
    power: power.readings.map((reading) => powerReading(reading, how)),
    arrivals: arrivalsIn(power, how),
    transmissions: transmissions.map((one) => one.transmission),
    changes,
    ...weakestOf(transmissions, how),
    ...wornOf(changes),
  };
}

/** A transmission, and the readings that it is computed from. */
interface MeasuredTransmission {
  readonly from: Read;
  readonly to: Read;
  readonly amount: Amount;
  readonly transmission: Transmission;
}

/** The variances of a power meter, from its own repeats and the machine's priors. */
export function meterOf({ readings }: Pick<Power, 'readings'>, machine: Machine | undefined): Meter {
  const prior = (name: PriorName) => lookup(machine?.priors ?? {}, name) ?? PRIORS[name].value;
  return meter(
    readings.map((one) => one.readings),
    { repeat: prior('powerReading'), placing: prior('powerPlacing') },
  );
}

/** A ratio needs power in both readings. */
export function isUsable({ by }: Amount): boolean {
  return [...by.keys()].every((reading) => isPower(reading.mean));
}

function powerReading({ order: _, ...reading }: Read, how: Meter): PowerReading {
  if (!isPower(reading.mean)) return reading;
  return { ...reading, u: uncertain({ value: reading.mean, by: new Map([[reading, reading.mean]]) }, how).u };
}

function occasion({ session, date, cell }: Read): Occasion {
  return { session, ...(date !== undefined && { date }), cell };
}

function place(reading: Read) {
  return { ...occasion(reading), station: reading.station };
}

function arrivalsIn({ steps }: Power, how: Meter): ArrivalChange[] {
  return steps.flatMap(({ from, to, between }) => {
    const amount = quotient(to, from);
    const happened = from.session !== to.session || Object.values(between).some((parts) => parts.length > 0);
    if (!happened || !isUsable(amount)) return [];
    return [{ station: to.station, from: occasion(from), to: occasion(to), between, ...uncertain(amount, how) }];
  });
}

/**
 * As found in a session (its first reading) against as left in the one before (the last reading); a replaced optic is
 * not compared.
 */
function changesIn(transmissions: readonly MeasuredTransmission[], power: Power, how: Meter): TransmissionChange[] {
  return transmissions.flatMap((now, k) => {
    const same = transmissions
      .slice(0, k)
      .filter((then) => then.transmission.through.join() === now.transmission.through.join());
    const then = same.at(-1);
    if (!then || then.to.session === now.to.session) return [];
    const done = doneBetween(power, then, now);
    if (done.disturbed) return [];
    return [
      {
        through: now.transmission.through,
        then: then.transmission,
        now: now.transmission,
        cleaned: done.cleaned,
        ...uncertain(difference(now.amount, then.amount), how),
      },
    ];
  });
}

function doneBetween(
  { done }: Power,
  then: MeasuredTransmission,
  now: MeasuredTransmission,
): { readonly cleaned: readonly string[]; readonly disturbed: boolean } {
  const since = Math.max(then.from.order, then.to.order);
  const until = Math.max(now.from.order, now.to.order);
  const of = done.filter(
    ({ order, to, part }) =>
      order > since &&
      order < until &&
      (to === 'disturbed' ? part === 'another machine' : now.transmission.through.includes(part)),
  );
  return {
    cleaned: [...new Set(of.filter(({ to }) => to === 'cleaned').map(({ part }) => part))],
    disturbed: of.some(({ to }) => to === 'replaced' || to === 'disturbed'),
  };
}

/** Two neighbours have a reading in common, which the uncertainty of their difference takes into account. */
function weakestOf(transmissions: readonly MeasuredTransmission[], how: Meter): Pick<CareHistory, 'weakest'> {
  const session = transmissions.at(-1)?.to.session;
  const latest = new Map(
    transmissions
      .filter(({ transmission: { through }, to }) => through.length === 1 && to.session === session)
      .map((one) => [one.transmission.through[0]!, one]),
  );
  const [least, next] = [...latest.values()].toSorted((one, other) => one.amount.value - other.amount.value);
  if (!least || !next) return {};
  const lead = uncertain(difference(next.amount, least.amount), how);
  if (lead.value <= lead.expanded) return {};
  const { value, u, expanded, through } = least.transmission;
  return { weakest: { part: through[0]!, transmission: { value, u, expanded } } };
}

/** In the last session with a comparison. */
function wornOf(changes: readonly TransmissionChange[]): Pick<CareHistory, 'worn'> {
  const session = changes.at(-1)?.now.to.session;
  const [worst] = changes
    .filter(({ now, value, expanded }) => now.to.session === session && value < -expanded)
    .toSorted((one, other) => one.value - other.value);
  return worst ? { worn: worst } : {};
}
