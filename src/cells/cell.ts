/** What a file's text is cut into. */

export interface Cell {
  /** offset in the file of `text[0]` */
  readonly start: number;
  /** 0-based line of `text[0]` in the file */
  readonly line: number;
  /** the original, its marker line at its place */
  readonly text: string;
  /**
   * What is to be parsed: as long as `text`, every character at its own offset, with marker lines, directives,
   * conflict markers and the other side of a conflict blanked by spaces (a `...` line by a bare `#`). Usually one; two where a conflict lies inside
   * the cell, ours then theirs; none for a cell too large to be parsed.
   */
  readonly readings: readonly string[];
}

export type CellCode =
  | 'cells.conflict'
  | 'cells.empty'
  | 'cells.loneReturn'
  | 'cells.directive'
  | 'cells.afterEnd'
  | 'cells.limit';

export interface CellProblem {
  readonly code: CellCode;
  /** offsets in the file, `end` exclusive */
  readonly start: number;
  readonly end: number;
  readonly facts: Readonly<Record<string, string>>;
}

/** Every character of the file is in exactly one of head, cells and tail. */
export interface Split {
  /** BOM, comments, blank lines and directives before the first cell; all of a file without cells */
  readonly head: string;
  readonly cells: readonly Cell[];
  /** what follows the `...` of the last cell */
  readonly tail: string;
  /** in file order within each code; of one code at most a hundred */
  readonly problems: readonly CellProblem[];
}
