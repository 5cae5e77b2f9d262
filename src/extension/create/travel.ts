/** `900 x 600`, `51 1/8 x 35`, `1300 900`: the travel of the head sideways and of the gantry to the rear. */
import type { Travel } from './answers.ts';

/** A number, a fraction, or both. */
const NUMBER = String.raw`(\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\d+/\d+)\s*(?:mm|in)?`;
const SIZE = new RegExp(String.raw`^\s*${NUMBER}(?:\s*(?:[x×*,;]|by)\s*|\s+)${NUMBER}\s*$`, 'i');

/** Undefined if it is not two lengths. */
export function readTravel(text: string): Travel | undefined {
  const [, width = '', depth = ''] = SIZE.exec(text) ?? [];
  const travel = { width: lengthOf(width), depth: lengthOf(depth) };
  return isLength(travel.width) && isLength(travel.depth) ? travel : undefined;
}

function lengthOf(text: string): number {
  return text
    .split(/\s+/)
    .map((part) => part.split('/').map(Number))
    .reduce((sum, [whole = NaN, divisor = 1]) => sum + whole / divisor, 0);
}

function isLength(value: number): boolean {
  return value > 0 && Number.isFinite(value);
}
