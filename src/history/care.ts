/** The care history of a log: parts, power, what each optic lets through, and what that was in earlier sessions. */
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

export function careHistory(entries: readonly LogEntry[]): CareHistory {
  const visits = visitsIn(entries);
  const machine = entries.findLast(({ entry }) => entry.kind === 'machine')?.entry as
    | { readonly machine: Machine }
    | undefined;
  const power = powerIn(entries, visits);
  const how = meterOf(power, machine?.machine);
  const passed = power.pairs.flatMap(({ through, from, to }): Passed[] => {
    const amount = quotient(to, from);
    return isUsable(amount)
      ? [{ from, to, amount, told: { through, from: place(from), to: place(to), ...uncertain(amount, how) } }]
      : [];
  });
  const changes = changesIn(passed, power, how);
  return {
    parts: partsIn(entries, visits, machine?.machine),
    power: power.readings.map((reading) => told(reading, how)),
    arrivals: arrivalsIn(power, how),
    transmissions: passed.map((one) => one.told),
    changes,
    ...weakestOf(passed, how),
    ...wornOf(changes),
  };
}

/** A transmission, and what it was worked out from. */
interface Passed {
  readonly from: Read;
  readonly to: Read;
  readonly amount: Amount;
  readonly told: Transmission;
}

/** How sure the readings of a meter are, by their own repeats and the machine’s priors. */
export function meterOf({ readings }: Pick<Power, 'readings'>, machine: Machine | undefined): Meter {
  const prior = (name: PriorName) => lookup(machine?.priors ?? {}, name) ?? PRIORS[name].value;
  return meter(
    readings.map((one) => one.readings),
    { repeat: prior('powerReading'), placing: prior('powerPlacing') },
  );
}

/** Nothing is compared with nothing. */
export function isUsable({ by }: Amount): boolean {
  return [...by.keys()].every((reading) => isPower(reading.mean));
}

function told({ order: _, ...reading }: Read, how: Meter): PowerReading {
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

/** As found in a session, the first of its readings, against as left in the one before, the last; what was replaced is another optic. */
function changesIn(passed: readonly Passed[], power: Power, how: Meter): TransmissionChange[] {
  return passed.flatMap((now, k) => {
    const same = passed.slice(0, k).filter((then) => then.told.through.join() === now.told.through.join());
    const then = same.at(-1);
    if (!then || then.to.session === now.to.session) return [];
    const done = doneBetween(power, then, now);
    if (done.disturbed) return [];
    return [
      {
        through: now.told.through,
        then: then.told,
        now: now.told,
        cleaned: done.cleaned,
        ...uncertain(difference(now.amount, then.amount), how),
      },
    ];
  });
}

function doneBetween(
  { done }: Power,
  then: Passed,
  now: Passed,
): { readonly cleaned: readonly string[]; readonly disturbed: boolean } {
  const since = Math.max(then.from.order, then.to.order);
  const until = Math.max(now.from.order, now.to.order);
  const of = done.filter(
    ({ order, to, part }) =>
      order > since &&
      order < until &&
      (to === 'disturbed' ? part === 'another machine' : now.told.through.includes(part)),
  );
  return {
    cleaned: [...new Set(of.filter(({ to }) => to === 'cleaned').map(({ part }) => part))],
    disturbed: of.some(({ to }) => to === 'replaced' || to === 'disturbed'),
  };
}

/** Two neighbours share a reading, so the difference knows of it. */
function weakestOf(passed: readonly Passed[], how: Meter): Pick<CareHistory, 'weakest'> {
  const session = passed.at(-1)?.to.session;
  const latest = new Map(
    passed
      .filter(({ told: { through }, to }) => through.length === 1 && to.session === session)
      .map((one) => [one.told.through[0]!, one]),
  );
  const [least, next] = [...latest.values()].toSorted((one, other) => one.amount.value - other.amount.value);
  if (!least || !next) return {};
  const lead = uncertain(difference(next.amount, least.amount), how);
  if (lead.value <= lead.expanded) return {};
  const { value, u, expanded, through } = least.told;
  return { weakest: { part: through[0]!, transmission: { value, u, expanded } } };
}

/** In the last session in which power was compared. */
function wornOf(changes: readonly TransmissionChange[]): Pick<CareHistory, 'worn'> {
  const session = changes.at(-1)?.now.to.session;
  const [worst] = changes
    .filter(({ now, value, expanded }) => now.to.session === session && value < -expanded)
    .toSorted((one, other) => one.value - other.value);
  return worst ? { worn: worst } : {};
}
