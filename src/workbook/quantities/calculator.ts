/**
 * The expression parser, asked for when the first true expression is met: mathjs takes some milliseconds to load and
 * to set up, and most workbooks never need it. So whoever makes a reader says where it comes from: from this process,
 * or from a file of its own.
 */
import type { MathNode } from 'mathjs/number';

/** Owned by the caller, one for all readings; holds no state but the parser itself. */
export interface Calculator {
  /** The parse tree of an arithmetic text; throws where mathjs does. */
  parse(text: string): MathNode;
}

export function createCalculator(load: () => Calculator): Calculator {
  let calculator: Calculator | undefined;
  return { parse: (text) => (calculator ??= load()).parse(text) };
}
