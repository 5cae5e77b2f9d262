/** The log's meaning: where the beam is, how sure that is, and the next step. */
export { evaluate } from './evaluate.ts';
export { threads } from './threads.ts';
export { markInWords, percent } from './reasons.ts';
export { expectedInWords } from './expected-words.ts';
export { millimetres, placeInWords } from './words.ts';
