/** A plain tree of texts, maps and lists, and where each of them stands in its cell. */
import type { Span } from '../model/index.ts';
import type { Problem } from './problem.ts';

/** `null`: nothing was written. Maps have no prototype: every key in them was typed by the user. */
export type Tree = string | null | readonly Tree[] | { readonly [key: string]: Tree };

export interface Place {
  /** Of the value; where there is none, an empty stretch after its key. */
  readonly span: Span;
  /** Of its key, where it has one. */
  readonly key: Span | undefined;
  /** Offset of the text's first character where the text stands in the cell as it is read, letter by letter. */
  readonly letters: number | undefined;
  /** A scalar without quotes. */
  readonly plain: boolean;
}

export interface Read {
  /** Absent where the text is no YAML, or not safe to look at. */
  readonly tree?: Tree;
  /** By path: keys and indexes joined by `/`; the whole is ``. */
  readonly places: ReadonlyMap<string, Place>;
  readonly problems: readonly Problem[];
}

/** The path of what stands in a collection at `path`: keys and indexes joined by `/`; that of the whole cell is empty. */
export function join(path: string, key: string | number): string {
  return path === '' ? String(key) : `${path}/${key}`;
}
