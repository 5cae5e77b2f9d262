/** While a version-control conflict stands, both its sides are read as cells: nothing may be moved by two truths. */
import type { Evaluation } from '../model/index.ts';

/** The same stations and findings, and one thing to do. */
export function inConflict(evaluation: Evaluation): Evaluation {
  return {
    verdict: 'blocked',
    steps: [
      {
        kind: 'repair',
        brief: 'resolve the conflict first',
        say: 'Resolve the version-control conflict first: the workbook contains two versions of what was done.',
      },
    ],
    expected: [],
    get unexplained() {
      return evaluation.unexplained;
    },
    get stations() {
      return evaluation.stations;
    },
    get learnt() {
      return evaluation.learnt;
    },
    get findings() {
      return evaluation.findings;
    },
  };
}
