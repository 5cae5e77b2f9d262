/** Replaces the placeholders for cells in an evaluation's sentences. */
import { withCellPlaces, type Evaluation, type Step } from '../model/index.ts';

/** Lazy: what is not read is still not computed. @param inWords a cell in words, by its index: `line 31` */
export function cellsInWords(evaluation: Evaluation, inWords: (cell: number) => string): Evaluation {
  return {
    get verdict() {
      return evaluation.verdict;
    },
    get steps() {
      return evaluation.steps.map((step) => placed(step, inWords));
    },
    get expected() {
      return evaluation.expected;
    },
    get chance() {
      return evaluation.chance;
    },
    get unexplained() {
      return evaluation.unexplained;
    },
    get whole() {
      return evaluation.whole;
    },
    get learnt() {
      return evaluation.learnt;
    },
    get stations() {
      return evaluation.stations;
    },
    get findings() {
      return evaluation.findings;
    },
  };
}

function placed<S extends Step>(step: S, inWords: (cell: number) => string): S {
  return step.why === undefined ? step : { ...step, why: withCellPlaces(step.why, inWords) };
}
