/** A new workbook: what is asked about its machine, and its first text. */
export type { Answers } from './answers.ts';
export { readLengths } from './lengths.ts';
export { readName } from './machine-name.ts';
export { ANSWERS, QUESTIONS, type AnswerName, type Choice, type Question, type Words } from './questions.ts';
export { workbookText, type Reading } from './workbook-text.ts';
