import type { Path } from './path.ts';

/** A span of a cell's text: UTF-16 offsets from the cell's first character, `end` exclusive. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** The spans of a cell's values. */
export type Spans = Readonly<Record<Path, Span>>;

/** Every path that has a span. */
export function pathsIn(spans: Spans): Path[] {
  return Object.keys(spans) as Path[];
}
