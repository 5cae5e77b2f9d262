/** Marks, places, amounts and probabilities in words. */
export { cellsInWords } from './cells-in-words.ts';
export { expectedInWords, trialInWords } from './expected-words.ts';
export { markInWords, percent, slopeInDirections, verdictInWords } from './mark-words.ts';
export { doneInCell, listOfOpen } from './open-checks.ts';
export { screwInWords } from './screw-words.ts';
export {
  bracketed,
  shortened,
  listed,
  nameInCell,
  shortPlace,
  placeInWords,
  placeName,
  shiftInWords,
  stopInWords,
} from './words.ts';
