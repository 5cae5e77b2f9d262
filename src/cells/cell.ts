/** The cells of a file. */

export interface Cell {
  /** offset in the file of `text[0]` */
  readonly start: number;
  /** 0-based line of `text[0]` in the file */
  readonly line: number;
  /** the original text, its marker line included */
  readonly text: string;
  /**
   * What is parsed: as long as `text`, every character at its own offset, with marker lines, directives, conflict
   * markers and the other side of a conflict replaced by spaces (a `...` line by a single `#`). Usually one; two if the
   * cell contains a conflict, ours then theirs; none for a cell that is too large.
   */
  readonly readings: readonly string[];
}

/** Codes of the problems that splitting finds. */
export type CellCode =
  | 'cells.conflict'
  | 'cells.empty'
  | 'cells.loneReturn'
  | 'cells.directive'
  | 'cells.afterEnd'
  | 'cells.limit';

/** A problem that splitting found. */
export interface CellProblem {
  readonly code: CellCode;
  /** offsets in the file, `end` exclusive */
  readonly start: number;
  readonly end: number;
  readonly facts: Readonly<Record<string, string>>;
}

/** Every character of the file is in exactly one of head, cells and tail. */
export interface Split {
  /** BOM, comments, blank lines and directives before the first cell; the whole text of a file without cells */
  readonly head: string;
  readonly cells: readonly Cell[];
  /** what follows the `...` of the last cell */
  readonly tail: string;
  /** in file order within each code; at most a hundred of each code */
  readonly problems: readonly CellProblem[];
}
