/** `900 x 600`, `51 1/8 x 35`, `1300 900`: two lengths as people write them. */

import type { Units } from '../model/index.ts';

/** A number, a fraction, or both, and its unit. */
const NUMBER = String.raw`(\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\d+/\d+)\s*(mm|in)?`;
const TWO = new RegExp(String.raw`^\s*${NUMBER}(?:\s*(?:[x×*,;]|by)\s*|\s+)${NUMBER}\s*$`, 'i');

/** Longer is no engraver. In whatever unit, because the unit is another answer. */
const LONGEST = 20_000;

/**
 * Undefined if it is not two lengths, or if one has another unit than the workbook's: a length is never converted
 * unseen.
 */
export function readLengths(text: string, units: Units | undefined): readonly [number, number] | undefined {
  const [, one = '', unit, other = '', otherUnit] = TWO.exec(text) ?? [];
  const isForeign = [unit, otherUnit].some((written) => written !== undefined && written.toLowerCase() !== units);
  const lengths = [lengthOf(one), lengthOf(other)] as const;
  return !isForeign && lengths.every(isLength) ? lengths : undefined;
}

function lengthOf(text: string): number {
  return text
    .split(/\s+/)
    .map((part) => part.split('/').map(Number))
    .reduce((sum, [whole = NaN, divisor = 1]) => sum + whole / divisor, 0);
}

function isLength(value: number): boolean {
  return value > 0 && value <= LONGEST;
}
