/**
 * The expression parser, made when the first true expression is met: mathjs takes some milliseconds to set up, and
 * most workbooks never need it. It parses only; it never evaluates, and it never sees a user's words or numbers, but
 * the letters `q0 + sqrt(q1)` that stand for them. Only its parser over plain numbers is imported (143 kB bundled).
 */
import { create, parseDependencies, type MathNode } from 'mathjs/number';

/** Owned by the caller, one for all readings; holds no state but the parser itself. */
export interface Calculator {
  /** The parse tree of an arithmetic text; throws where mathjs does. */
  parse(text: string): MathNode;
}

export function createCalculator(): Calculator {
  let parse: ((text: string) => MathNode) | undefined;
  return {
    parse(text) {
      parse ??= create({ parseDependencies: parseDependencies! }, {}).parse as (text: string) => MathNode;
      return parse(text);
    },
  };
}
