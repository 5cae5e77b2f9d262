/** The next steps. */
import type { Expected, Step, Verdict } from '../model/index.ts';

export interface Next {
  readonly verdict: Verdict;
  readonly steps: readonly Step[];
  readonly expected: readonly Expected[];
  /** Of a move: the probability that its station and those before it are within afterwards. */
  readonly chance?: number;
}
