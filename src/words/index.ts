/** Marks, places, amounts and probabilities in words. */
export { nameInCell } from '../model/index.ts';
export { cellsInWords } from './cells-in-words.ts';
export { expectedInColumns, expectedInWords, trialInWords } from './expected-words.ts';
export { markInWords, markWithUnits, percent, slopeInDirections, verdictInWords } from './mark-words.ts';
export { doneInCell, listOfOpen } from './open-checks.ts';
export { screwInWords } from './screw-words.ts';
export {
  bracketed,
  shortened,
  listed,
  shortPlace,
  placeInBrief,
  placeInWords,
  placeName,
  shiftInWords,
  stopInWords,
  textInCell,
} from './words.ts';
