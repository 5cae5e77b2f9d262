/** A finding without its cell: a cell's text is read once, wherever it appears. */
import type { Finding } from '../model/index.ts';

/** Maximum number of problems reported for one cell: a hostile text could cause a million. */
export const MOST_PROBLEMS = 100;

export type Problem = Omit<Finding, 'cell'>;
