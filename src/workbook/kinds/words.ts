/** The words that make a cell what it is, in the order in which the format describes them. */
import type { Kind } from '../../model/index.ts';

export const KINDS = [
  'machine',
  'limits',
  'session',
  'marks',
  'adjust',
  'care',
  'power',
  'event',
  'checks',
  'note',
  'work',
  'release',
] as const satisfies readonly Kind[];

export const KIND_WORDS: ReadonlySet<string> = new Set(KINDS);
