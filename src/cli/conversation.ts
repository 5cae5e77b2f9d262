/** What a command needs that asks. */
import type { Dialogue } from './dialogue.ts';
import type { Files } from './files.ts';
import type { Terminal } from './terminal.ts';

export interface Conversation {
  readonly terminal: Terminal;
  readonly dialogue: Pick<Dialogue, 'ask' | 'isTerminal'>;
  readonly files: Files;
  /** The date in the user's time zone, `2026-03-14`. */
  today(): string;
}
