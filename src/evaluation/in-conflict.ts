/** While a version-control conflict stands, both its sides are read as cells: nothing may be moved by two truths. */
import { withParts, type Evaluation } from '../model/index.ts';

/** The same stations and findings, and one thing to do. */
export function inConflict(evaluation: Evaluation): Evaluation {
  return withParts(evaluation, {
    verdict: 'blocked',
    steps: [
      {
        kind: 'repair',
        brief: 'resolve the conflict first',
        say: 'Resolve the version-control conflict first: the workbook contains two versions of what was done.',
      },
    ],
    expected: [],
    chance: undefined,
    ways: undefined,
    whole: undefined,
  });
}
