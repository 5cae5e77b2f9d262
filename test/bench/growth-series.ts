/** The series: the part that grows, the commands, the sizes, and the bounds of CPU time and memory. */
import type { WORKBOOKS } from './growth-workbooks.ts';

export interface Series {
  readonly name: keyof typeof WORKBOOKS;
  /** Command lines without the file. */
  readonly commands: readonly string[];
  /** From the smallest. */
  readonly sizes: readonly number[];
  /** Largest exponent of the growth of CPU time with size. */
  readonly exponent: number;
  /** CPU time of a workbook of up to a megabyte, s. */
  readonly seconds: number;
  /** Memory at one size, MB. */
  readonly memory?: { readonly size: number; readonly most: number };
}

const LINEAR = { exponent: 1.15, seconds: 2 };
/** Each mark depends on all mirrors before it, and an estimate holds the covariance of any two: n³ for n mirrors. */
const OF_MIRRORS = { exponent: 2.2, seconds: 2 };

const RECORDS = ['report --markdown', 'report'];
const NOTE = { commands: RECORDS, sizes: [10_000, 100_000, 999_900], ...LINEAR };
const MARKS = { sizes: [1_000, 10_000, 40_000, 99_000], ...LINEAR, memory: { size: 40_000, most: 300 } };

export const SERIES: readonly Series[] = [
  { name: 'mirrors', commands: ['next'], sizes: [10, 45, 200], ...OF_MIRRORS },
  { name: 'mirrorsOff', commands: ['next'], sizes: [10, 45, 200], ...OF_MIRRORS },
  { name: 'riding', commands: ['next'], sizes: [5, 12, 30], ...OF_MIRRORS },
  { name: 'marksOfOne', commands: ['check', 'next'], ...MARKS },
  { name: 'marksOfTwo', commands: ['check', 'next'], ...MARKS },
  { name: 'shots', commands: ['next', ...RECORDS], sizes: [3_000, 13_000, 60_000], ...LINEAR },
  { name: 'places', commands: ['next'], sizes: [100, 400, 2_000], ...LINEAR },
  { name: 'session', commands: ['check', 'next'], sizes: [1_000, 4_000, 16_000], ...LINEAR },
  { name: 'sessions', commands: ['next', 'check', 'sessions', 'report'], sizes: [100, 300, 1_000], ...LINEAR },
  { name: 'marksOfMany', commands: ['check', 'next'], sizes: [100, 350, 1_200], ...LINEAR },
  { name: 'turns', commands: ['next'], sizes: [1_000, 4_000, 16_000], ...LINEAR },
  { name: 'care', commands: ['check', 'care'], sizes: [1_000, 3_000, 10_000], ...LINEAR },
  { name: 'power', commands: ['check', 'care'], sizes: [1_000, 3_000, 10_000], ...LINEAR },
  { name: 'work', commands: ['check'], sizes: [1_000, 3_000, 10_000], ...LINEAR },
  { name: 'workOfLog', commands: ['check'], sizes: [1_000, 3_000, 10_000], ...LINEAR },
  { name: 'notes', commands: ['check', 'next'], sizes: [1_000, 7_000, 50_000], ...LINEAR },
  { name: 'blanks', ...NOTE },
  { name: 'digits', ...NOTE },
  { name: 'newlines', ...NOTE },
  { name: 'keys', commands: ['check'], sizes: [1_000, 6_000, 40_000], ...LINEAR },
  { name: 'conflicts', commands: ['check'], sizes: [1_000, 3_000, 10_000], ...LINEAR },
  { name: 'chain', commands: ['check'], sizes: [10, 100, 1_000], ...LINEAR },
  { name: 'machines', commands: ['next'], sizes: [60, 170, 500], ...LINEAR },
  { name: 'unmarked', commands: ['next'], sizes: [100, 350, 1_200], ...LINEAR },
];
