/** A workbook that is being added to. */
import type { Book } from '../language/index.ts';
import type { AddOptions } from './arguments.ts';
import type { Conversation } from './conversation.ts';

export interface Adding extends Conversation {
  readonly options: AddOptions;
  readonly book: Book;
  /** Prints a paragraph. */
  show(text: string, lead?: string): void;
}
