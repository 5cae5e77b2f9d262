/**
 * Other measurements: the limits in force for each name, and the places of the visit whose last value is outside them.
 * They affect neither optics nor verdict.
 */
import { quantityInWords } from './dimension-units.ts';
import type { Entry, MeasuredValue, MeasureEntry, MeasureLimit } from './entry.ts';
import type { Units } from './machine.ts';

/** By name. */
export type Measurements = ReadonlyMap<string, MeasuredThing>;

interface MeasuredThing {
  readonly dimension: string;
  readonly limit?: MeasureLimit;
  /** Places in this visit whose last value is outside the limits. */
  readonly outside: ReadonlySet<string>;
}

/** The measurements before the first entry. */
export const NOTHING_MEASURED: Measurements = new Map();

/** The measurements after this entry. @param opensVisit whether a visit begins with this entry */
export function nextMeasured(before: Measurements, entry: Entry, opensVisit: boolean): Measurements {
  const current = opensVisit
    ? new Map([...before].map(([name, thing]) => [name, { ...thing, outside: NOWHERE }]))
    : before;
  if (entry.kind !== 'measure') return current;
  const limit = limitFor(current, entry);
  const outside = new Set(current.get(entry.name)?.outside);
  for (const value of entry.values) {
    if (isOutside(value, limit)) outside.add(value.place ?? '');
    else outside.delete(value.place ?? '');
  }
  return new Map(current).set(entry.name, { dimension: entry.dimension, outside, ...(limit && { limit }) });
}

const NOWHERE: ReadonlySet<string> = new Set();

/** The cell's own limit, else that of the last cell of this name that gave one of the same dimension. */
export function limitFor(before: Measurements, { name, dimension, limit }: MeasureEntry): MeasureLimit | undefined {
  const last = before.get(name);
  return limit ?? (last?.dimension === dimension ? last.limit : undefined);
}

/** Whether a value is outside its limits; false without limits. */
export function isOutside({ value }: Pick<MeasuredValue, 'value'>, limit: MeasureLimit | undefined): boolean {
  return limit !== undefined && (value < limit.least || value > limit.most);
}

/** `bed level (front left)` */
export function measuredInWords(name: string, place: string | undefined): string {
  return place === undefined ? name : `${name} (${place})`;
}

/** `at most 0.5 mm`, `18 degC to 22 degC` */
export function measureLimitInWords({ least, most }: MeasureLimit, dimension: string, units: Units): string {
  const words = (value: number) => quantityInWords(value, dimension, units);
  return least === -most ? `at most ${words(most)}` : `${words(least)} to ${words(most)}`;
}
