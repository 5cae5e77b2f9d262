/** An evaluation whose sentences say where the cells are that they name. */
import { withCellPlaces, type Evaluation, type Step } from '../model/index.ts';

/** What is not asked for is still not computed. @param inWords of a cell by its index: `line 31` */
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
