/** What a server needs of where it runs: Node has a disk; a web worker asks the editor. */
import type { ReadFile, Tables } from '../../language/index.ts';

/** A workbook's place: the path is relative to the root, `/` between folders, and never leads out of it. */
export interface Place {
  readonly root: string;
  readonly file: string;
}

export interface Host {
  readonly tables: Tables;
  placeOf(uri: string): Place;
  uriOf(place: Place): string;
  load(place: Place): Promise<ReadFile>;
  /** Addresses of the workbooks in a folder and below it. */
  workbooksIn(folder: string): Promise<readonly string[]>;
  /** Address of the page about findings. */
  page(): string | undefined;
  /** ISO 8601, where the user is. */
  today(): string;
  /** Milliseconds, from any moment on. */
  now(): number;
  /** Lets everybody else have a turn. */
  turn(): Promise<void>;
}

/** What a client says of itself at the beginning. */
export interface Start {
  /** Addresses of the open folders, and of the page about findings. */
  readonly folders: readonly string[];
  readonly page?: string | undefined;
}
