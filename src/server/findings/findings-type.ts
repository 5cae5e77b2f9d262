import type { Opened } from '../documents/workspace.ts';

export interface Findings {
  /** The client accepts notifications from now on. */
  started(): void;
  /** The text changed, or a text that it takes machines from. */
  changed(opened: Opened): void;
  closed(uris: readonly string[]): void;
  /** A file that is not open changed. */
  changedOnDisk(): void;
}
