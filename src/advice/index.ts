/** The order of work: the next steps, in words, with the cells that log them. */
export { looseInWords, scatterDistance, whereIn } from './resolve-doubts.ts';
export { learntFacts } from './learnt.ts';
export { next } from './next.ts';
export { makeSafe } from './make-safe.ts';
export { bendInWords } from './rails-words.ts';
export { expectations, requestAt, shoot } from './shooting.ts';
export { blocked } from './stuck.ts';
export { isKnown } from './trial.ts';
export { cureOf, curesOf } from './unfit-steps.ts';
export { twoWays } from './two-ways.ts';
export { wholeMachine } from './whole-machine.ts';
