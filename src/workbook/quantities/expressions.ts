/**
 * mathjs as a parser only: it does not evaluate, and it does not see the user's words or numbers, only letters such as
 * `q0 + sqrt(q1)`. Only its parser for plain numbers is imported (143 kB bundled).
 */
import { create, parseDependencies, type MathNode } from 'mathjs/number';
import type { Calculator } from './calculator.ts';

/** The expression parser; `parse` returns undefined for invalid texts. */
export function expressions(): Calculator {
  const parse = create({ parseDependencies: parseDependencies! }, {}).parse as (text: string) => MathNode;
  return {
    parse(text) {
      try {
        return parse(text);
      } catch {
        return undefined;
      }
    },
  };
}
