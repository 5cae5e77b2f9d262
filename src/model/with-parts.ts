/** An evaluation with some parts replaced. */
import type { Evaluation } from './evaluation.ts';

/** Lazy: a part that is not read is still not computed. */
export function withParts(evaluation: Evaluation, parts: Partial<Evaluation>): Evaluation {
  const own = [evaluation, parts].map((one) => Object.getOwnPropertyDescriptors(one));
  return Object.defineProperties({}, Object.assign({}, ...own)) as Evaluation;
}
