/** The log over time: care and power, visits, drift between them and its forecast. */
export { careHistory } from './care.ts';
export { byUrgency, careDue, driftDue, dueInBrief, whenInWords, type DueItem, type Urgency } from './due.ts';
export { powerLosses, type PowerLoss } from './losses.ts';
export { recentHistory, sessionHistory } from './sessions.ts';
export {
  arrivalInWords,
  careInWords,
  careSentences,
  changeInWords,
  dueInWords,
  powerInWords,
  throughInWords,
  transmissionInWords,
} from './care-words.ts';
export { visitsFigureOf } from './visits-figure.ts';
export { driftInWords, forecastInWords, marksInWords, sessionInWords } from './session-words.ts';
