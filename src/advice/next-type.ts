/** What to do next. */
import type { Expected, Step, Verdict } from '../model/index.ts';

export interface Next {
  readonly verdict: Verdict;
  readonly steps: readonly Step[];
  readonly expected: readonly Expected[];
  /** Of a move: that its station and those before it are within afterwards. */
  readonly chance?: number;
}
