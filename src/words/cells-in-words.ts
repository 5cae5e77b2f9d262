/** Replaces the placeholders for cells in an evaluation's sentences. */
import { withCellPlaces, withParts, type Evaluation, type Step } from '../model/index.ts';

/** Lazy: what is not read is still not computed. @param inWords a cell in words, by its index: `line 31` */
export function cellsInWords(evaluation: Evaluation, inWords: (cell: number) => string): Evaluation {
  return withParts(evaluation, {
    get steps() {
      return evaluation.steps.map((step) => placed(step, inWords));
    },
  });
}

function placed<S extends Step>(step: S, inWords: (cell: number) => string): S {
  return step.why === undefined ? step : { ...step, why: withCellPlaces(step.why, inWords) };
}
