/** How a value of any dimension is shown: its common unit, and the factor from the base unit. */
import { lengthsIn } from './lengths.ts';
import type { Units } from './machine.ts';

const UNITS: Readonly<Record<string, readonly [factor: number, unit: string]>> = {
  angle: [1000, ' mrad'],
  power: [1, ' W'],
  time: [1, ' s'],
  number: [1, ''],
  temperature: [1, ' degC'],
  pressure: [1e4, ' bar'],
  flow: [60e-6, ' l/min'],
  voltage: [1, ' V'],
  current: [1000, ' mA'],
};

/** @param dimension in words: `length`, `angle`, …; for any other the dimension stands in brackets instead of a unit */
export function unitFor(dimension: string, units: Units): readonly [factor: number, unit: string] {
  if (dimension === 'length') {
    const { scale, unit } = lengthsIn(units);
    return [scale, ` ${unit}`];
  }
  return UNITS[dimension] ?? [1, ` (${dimension})`];
}

/** Further digits are rounding errors. */
const DIGITS = 6;

/** As written, in the common unit: `0.4 mm`, `2.1 bar`. */
export function quantityInWords(value: number, dimension: string, units: Units): string {
  const [factor, unit] = unitFor(dimension, units);
  return `${Number((value * factor).toPrecision(DIGITS)) + 0}${unit}`;
}
