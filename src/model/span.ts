/** A span of a cell's text: UTF-16 offsets from the cell's first character, `end` exclusive. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** The spans of a cell's values: a path of keys joined by `/` (`shots/near`, `turn/B`) → its span. */
export type Spans = Readonly<Record<string, Span>>;
