/** How a value of any dimension is shown: the unit that people use, and what a base unit counts in it. */
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

/** @param dimension in words: `length`, `angle`, …; of any other the base unit stands in brackets */
export function unitFor(dimension: string, units: Units): readonly [factor: number, unit: string] {
  if (dimension === 'length') {
    const { scale, unit } = lengthsIn(units);
    return [scale, ` ${unit}`];
  }
  return UNITS[dimension] ?? [1, ` (${dimension})`];
}

/** More are noise of the arithmetic. */
const DIGITS = 6;

/** As it was written, in the unit that people use: `0.4 mm`, `2.1 bar`. */
export function quantityInWords(value: number, dimension: string, units: Units): string {
  const [factor, unit] = unitFor(dimension, units);
  return `${Number((value * factor).toPrecision(DIGITS)) + 0}${unit}`;
}
