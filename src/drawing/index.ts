/** Pictures: a pure function from data to text, the same wherever it is shown. */
export { drawTarget, type Target, type TargetMark } from './target.ts';
