/** What the editor's extension and the language server say to each other beyond the protocol: names and shapes only. */

/** The editor asks the server what the log of a workbook comes to. Params `UriParams`, answer `Status`, or null for a file that is no open workbook. */
export const STATUS_REQUEST = 'alignbook/status';

export interface Status {
  readonly verdict: 'within' | 'continue' | 'blocked';
  /** In a line, `next: M1 B in 1/4; shoot M2 near and far`. */
  readonly brief: string;
  /** Why, and each step in a sentence; Markdown. */
  readonly full: string;
  /** In the order in which they are done, up to and including the first that asks for a shot. */
  readonly steps: readonly StatusStep[];
  readonly findings: Readonly<Record<'error' | 'warning', number>>;
}

export interface StatusStep {
  /** `M1 B in 1/4` */
  readonly brief: string;
  /** In a sentence. */
  readonly say: string;
  /** The cell to append when it is done, its first line the kind; absent where there is nothing to write down. */
  readonly cell?: string;
}

/** The panel's sheet of a workbook. Params `UriParams` with what is asked of it, answer the sheet and the `version` of the text that it is of, or null. */
export const PANEL_REQUEST = 'alignbook/sheet';

/** What the text at a position is about. Params `UriParams` and `position`, answer `{station, mark?}` or null. */
export const MARK_REQUEST = 'alignbook/spot';

/** Where a mark stands in the text. Params `UriParams`, `cell` and `path`, answer a location, in a notebook of its cell, or null. */
export const LOCATION_REQUEST = 'alignbook/location';

/** What stands below cells of a notebook. Params `UriParams` of the notebook and `cells`, the addresses of cells; answer a `CellSheet` or null for each. */
export const CELLS_REQUEST = 'alignbook/cells';

/** The record of the last visit. Params `UriParams` and what is known of the file, `RecordParams`; answer `VisitRecord`, or null. */
export const RECORD_REQUEST = 'alignbook/record';

export interface RecordParams extends UriParams {
  readonly file: string;
  /** SHA-256 of the saved bytes, in hexadecimal digits. */
  readonly hash: string;
  readonly revision?: { readonly commit: string; readonly isChanged: boolean };
  readonly version: string;
}

export interface VisitRecord {
  readonly html: string;
  readonly markdown: string;
}

/** The edits that write a placed mark. Params `UriParams`, `cell`, `path`, `right` and `up` (mm, viewer's frame), answer a workspace edit of versioned documents or null. */
export const PLACE_REQUEST = 'alignbook/placeMark';

export interface UriParams {
  readonly uri: string;
}

/**
 * A server without a disk asks the editor for a file. Params `FileParams`, answer `FileAnswer`; `reason` goes on as in
 * "it cannot be used: it is not UTF-8 text".
 */
export const READ_REQUEST = 'alignbook/read';

export interface FileParams {
  readonly uri: string;
}

export type FileAnswer = { readonly text: string } | { readonly reason: string };

/** A server without a disk asks the editor for the addresses of the workbooks in a folder and below it. Params `FolderParams`, answer `string[]`. */
export const WORKBOOKS_REQUEST = 'alignbook/workbooks';

export interface FolderParams {
  readonly folder: string;
}

/** The server's own command, for editors that have nothing better: writes the advised steps down. Argument: the workbook's address. */
export const ADD_STEP_COMMAND = 'alignbook.server.addStep';
