/** Output and exit code of a command. */
import type { Paint } from './paint.ts';

export interface Terminal {
  /** A text, or the bytes of a file. */
  out(content: string | Uint8Array): void;
  error(text: string): void;
  readonly paint: Paint;
  /** Its width; `COLUMNS` where it is not known. */
  readonly columns: number;
}

/** 0: done; 1: errors in a workbook; 2: bad usage or an unreadable file. */
export type Exit = 0 | 1 | 2;

/** The width of a terminal that does not give it. */
export const COLUMNS = 80;
/** Longer lines are hard to read. */
const MOST = 100;

/** The width of text: the last column stays free, because some terminals do not use it. */
export function textWidth({ columns }: Pick<Terminal, 'columns'>): number {
  return Math.min(columns - 1, MOST);
}
