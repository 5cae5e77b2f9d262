/** What the server needs from its environment: Node has a disk; a web worker asks the editor for files. */
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
  /** URIs of the workbooks in a folder and below it. */
  workbooksIn(folder: string): Promise<readonly string[]>;
  /** URI of the page that documents the findings. */
  page(): string | undefined;
  /** ISO 8601, in the user's time zone. */
  today(): string;
  /** Milliseconds since an arbitrary moment. */
  now(): number;
  /** Resolves after other pending events are handled. */
  turn(): Promise<void>;
}

/** What a client sends at initialization. */
export interface Start {
  /** URIs of the open folders, and of the page that documents the findings. */
  readonly folders: readonly string[];
  readonly page?: string | undefined;
}
