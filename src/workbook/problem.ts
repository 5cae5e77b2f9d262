/** A finding before it is known which cell of which file it stands in: a cell's text is read once, wherever it stands. */
import type { Finding } from '../model/index.ts';

/** Of one cell no more are reported: nobody reads the hundred and first, and a hostile text could make a million. */
export const MOST_PROBLEMS = 100;

export type Problem = Omit<Finding, 'cell'>;
