/**
 * Requests between the editor's extension and the language server beyond the protocol, typed for both ends. Positions
 * and edits are the protocol's. A request about a workbook is answered with null if the file is no open workbook.
 */
import type { Axes } from './axes.ts';
import type { Amendment } from './entry.ts';
import type { Verdict } from './evaluation.ts';
import type { Simulation } from './machine.ts';
import type { ClosingSheet } from './practice-view.ts';
import type { TextPlace } from './figures.ts';
import type { CellView } from './cell-view.ts';
import type { MachineList, MachinesParams } from './machine-summary.ts';
import type { PanelOptions, PanelView } from './panel-view.ts';

/** What the extension asks the server: parameters and answer by the name of the request. */
export interface Requests {
  /** The verdict, the next step and the counts of findings, with the version of the text that they are of. */
  'alignbook/status': Request<UriParams, Status & { readonly version: number }>;
  /** What an editor draws beside the text of a document: the workbook's, or a notebook cell's. */
  'alignbook/margin': Request<UriParams, Margin>;
  /** The panel's view model, with the version of the text that it shows. */
  'alignbook/panel': Request<UriParams & PanelOptions, PanelView & { readonly version: number }>;
  /** The station, and the mark if there is one, at a position in the text. */
  'alignbook/markAt': Request<
    UriParams & { readonly position: TextPosition },
    { readonly station: string; readonly mark?: TextPlace }
  >;
  /** The range of a mark in the text; in a notebook, in its cell. */
  'alignbook/location': Request<UriParams & TextPlace, { readonly uri: string; readonly range: TextRange }>;
  /**
   * The edits that write a placed mark: `right` and `up` in mm, viewer's frame, or `none` where the beam missed the
   * tape; `anew` writes it into a new visit, `amend` with what it was before. The answer has the signature of the
   * visit, if the mark is part of one that was signed, and neither was asked for.
   */
  'alignbook/placeMark': Request<
    UriParams & PlacedMark & { readonly anew?: boolean; readonly amend?: Omit<Amendment, 'was'> },
    VersionedEdits & { readonly signed?: Signature }
  >;
  /** The output below cells of a notebook, in the order of their addresses `cells`; null for a cell without one. */
  'alignbook/cells': Request<UriParams & { readonly cells: readonly string[] }, readonly (CellView | null)[]>;
  /** The blanks of a practice workbook that can be fired for, with their place in the words of a cell. */
  'alignbook/blanks': Request<
    UriParams,
    readonly {
      readonly place: TextPlace;
      readonly station: string;
      readonly label: string;
      readonly uri: string;
      readonly range: TextRange;
      readonly isExpected: boolean;
    }[]
  >;
  /** The edits that write what is expected of a blank; null if the words are no mark. */
  'alignbook/expect': Request<UriParams & TextPlace & { readonly words: string }, VersionedEdits>;
  /** The text of a new practice workbook. */
  'alignbook/practise': { readonly params: Simulation; readonly answer: { readonly text: string } | null };
  /** The closing sheet of a practice machine. */
  'alignbook/closing': Request<UriParams, ClosingSheet>;
  /** The record of the last visit. */
  'alignbook/record': Request<RecordParams, VisitRecord>;
  /** Every workbook in the open folders. */
  'alignbook/machines': Request<MachinesParams, MachineList>;
}

/** The requests about one workbook, by its address. */
export type RequestAboutWorkbook = {
  [Name in keyof Requests]: Requests[Name]['params'] extends UriParams ? Name : never;
}[keyof Requests];

/** What a server without a disk asks the extension. */
export interface FileRequests {
  /** The text of a file. `reason` continues a sentence: "it cannot be used: it is not UTF-8 text". */
  'alignbook/read': {
    readonly params: UriParams;
    readonly answer: { readonly text: string } | { readonly reason: string };
  };
  /** The addresses of the workbooks in a folder and below it. */
  'alignbook/workbooks': { readonly params: { readonly folder: string }; readonly answer: readonly string[] };
}

/** A mark and its place in the text. */
export interface PlacedMark extends TextPlace, Axes {
  /** The beam missed the tape. */
  readonly none?: true;
  /** Rounded to a tenth of the resolution of readings instead of to it. */
  readonly fine?: true;
}

interface Request<Params, Answer> {
  readonly params: Params;
  readonly answer: Answer | null;
}

/** Parameters of a request about one document. */
export interface UriParams {
  readonly uri: string;
}

/** From 0; characters are UTF-16 code units. */
export interface TextPosition {
  readonly line: number;
  readonly character: number;
}

/** A range in a document, `end` exclusive. */
export interface TextRange {
  readonly start: TextPosition;
  readonly end: TextPosition;
}

/** Edits of documents whose version must still be the one given; null: not open in the editor. */
export interface VersionedEdits {
  readonly documentChanges: readonly {
    readonly textDocument: { readonly uri: string; readonly version: number | null };
    readonly edits: readonly { readonly range: TextRange; readonly newText: string }[];
  }[];
}

/** Who signed a visit, and when, as far as it is logged. */
export interface Signature {
  readonly by?: string;
  readonly date?: string;
}

/** What an editor draws beside a text. */
export interface Margin {
  /** What belongs where a value is blank: `right or left, up or down`. */
  readonly blanks: readonly { readonly position: TextPosition; readonly text: string }[];
  /** The cells of signed visits, each as whole lines. */
  readonly signed: readonly TextRange[];
}

/** The status of a workbook, for a status bar. */
export interface Status {
  readonly verdict: Verdict;
  /** What to do now: `M1: B in 1/4`, the same as in every other view. */
  readonly sentence: string;
  /** The machine is simulated: a view says PRACTICE before the sentence. */
  readonly isPractice?: true;
  /** The reason, and each step in a sentence; Markdown. */
  readonly full: string;
  /** In the order of the work, up to and including the first that asks for a shot. */
  readonly steps: readonly StatusStep[];
  /** Near an even chance, two ways to choose from instead of `steps`. */
  readonly ways?: readonly StatusWay[];
  readonly findings: Readonly<Record<'error' | 'warning', number>>;
}

/** One way to go on, with its cost and the cells that log it. */
export interface StatusWay {
  /** `shoot M3 again (4 tapes)` */
  readonly brief: string;
  /** In a sentence. */
  readonly say: string;
  readonly cells: readonly string[];
}

/** One advised step. */
export interface StatusStep {
  /** `M1 B in 1/4` */
  readonly brief: string;
  /** In a sentence. */
  readonly say: string;
  /** The cell to append when the step is done, its first line the kind; absent if there is nothing to log. */
  readonly cell?: string;
}

/** What the extension knows about the file of a record. */
export interface RecordParams extends UriParams {
  readonly file: string;
  /** SHA-256 of the saved bytes, in hexadecimal digits. */
  readonly hash: string;
  readonly revision?: { readonly commit: string; readonly isChanged: boolean };
  readonly version: string;
  /** Absent: chosen when it is printed. */
  readonly paper?: 'A4' | 'letter' | undefined;
}

/** The record of a visit, as a page and as Markdown. */
export interface VisitRecord {
  readonly html: string;
  readonly markdown: string;
}

/** The server's own command, for editors without ours: it logs the advised steps. Argument: the workbook's address. */
export const ADD_STEP_COMMAND = 'alignbook.server.addStep';

/** The server's notification, once the list was requested, that workbooks in the open folders changed on disk. */
export const MACHINES_CHANGED = 'alignbook/machinesChanged';
