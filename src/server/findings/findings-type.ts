import type { Opened } from '../documents/desk.ts';

export interface Findings {
  /** The client is ready for more than answers. */
  started(): void;
  /** The text has changed, or what it borrows has. */
  changed(opened: Opened): void;
  closed(uris: readonly string[]): void;
  /** A file that nobody has open has changed. */
  changedOnDisk(): void;
}
