/**
 * Loads the expression parser on first use: mathjs takes some milliseconds to load and to set up, and most workbooks
 * never need it. The creator of a reader passes the loader: from this process, or from a separate file. An error while
 * loading is thrown, and never reported as a mistake in the text.
 */
import type { MathNode } from 'mathjs/number';

/** Owned by the caller, one for all readings; its only state is the parser. */
export interface Calculator {
  /** The parse tree of an arithmetic text; undefined if mathjs finds none. */
  parse(text: string): MathNode | undefined;
}

/** A calculator that loads its parser on first use. @param load may throw; the error is passed on */
export function createCalculator(load: () => Calculator): Calculator {
  let calculator: Calculator | undefined;
  return { parse: (text) => (calculator ??= load()).parse(text) };
}
