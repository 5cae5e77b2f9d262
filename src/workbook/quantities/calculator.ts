/**
 * The expression parser, asked for when the first true expression is met: mathjs takes some milliseconds to load and
 * to set up, and most workbooks never need it. So whoever makes a reader says where it comes from: from this process,
 * or from a file of its own. An error while it is loaded is thrown, and never taken for a mistake in the text.
 */
import type { MathNode } from 'mathjs/number';

/** Owned by the caller, one for all readings; holds no state but the parser itself. */
export interface Calculator {
  /** The parse tree of an arithmetic text; undefined where mathjs finds none. */
  parse(text: string): MathNode | undefined;
}

export function createCalculator(load: () => Calculator): Calculator {
  let calculator: Calculator | undefined;
  return { parse: (text) => (calculator ??= load()).parse(text) };
}
