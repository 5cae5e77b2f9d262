/** Output and exit code of a command. */
import type { Paint } from './paint.ts';

export interface Terminal {
  /** A text, or the bytes of a file. */
  out(content: string | Uint8Array): void;
  error(text: string): void;
  readonly paint: Paint;
}

/** 0: done; 1: errors in a workbook; 2: bad usage or an unreadable file. */
export type Exit = 0 | 1 | 2;
