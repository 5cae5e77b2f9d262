/**
 * mathjs as a parser only: it never evaluates, and it never sees a user's words or numbers, but the letters
 * `q0 + sqrt(q1)` that stand for them. Only its parser over plain numbers is imported (143 kB bundled).
 */
import { create, parseDependencies, type MathNode } from 'mathjs/number';
import type { Calculator } from './calculator.ts';

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
