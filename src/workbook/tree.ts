/** A plain tree of texts, maps and lists, and their places in the cell. */
import type { Path, Span } from '../model/index.ts';
import type { Problem } from './problem.ts';

/** `null`: no value. Maps have no prototype: every key in them was typed by the user. */
export type Tree = string | null | readonly Tree[] | { readonly [key: string]: Tree };

/** The place of a value in its cell. */
export interface Place {
  /** The span of the value; an empty span after the key if there is none. */
  readonly span: Span;
  /** The span of its key, if any. */
  readonly key: Span | undefined;
  /** Offset of the first character, if the text appears in the cell exactly as read. */
  readonly letters: number | undefined;
  /** A scalar without quotes. */
  readonly plain: boolean;
}

export interface Read {
  /** Absent if the text is no YAML, or not safe to read. */
  readonly tree?: Tree;
  readonly places: ReadonlyMap<Path, Place>;
  readonly problems: readonly Problem[];
}

/** Values in one cell, mappings and lists included: more than any log needs; a chain of aliases exceeds it at once. */
export const MOST_VALUES = 200_000;
