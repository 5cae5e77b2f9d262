export * from './path.ts';
export * from './span.ts';
export * from './quantity.ts';
export * from './directions.ts';
export * from './machine.ts';
export * from './entry.ts';
export { isKind, isShotKind, KINDS, unreadReach, type Kind, type UnreadReach } from './kinds.ts';
export * from './light.ts';
export * from './finding.ts';
export * from './axes.ts';
export * from './evaluation.ts';
export * from './learnt.ts';
export * from './care-history.ts';
export * from './machine-summary.ts';
export { inGroups, namesOf, type ListedGroup } from './machine-groups.ts';
export * from './session-history.ts';
export * from './figures.ts';
export * from './cell-view.ts';
export * from './sheet.ts';
export * from './panel-view.ts';
export * from './practice-view.ts';
export * from './panel.ts';
export * from './requests.ts';
export * from './priors.ts';
export {
  cautionsAt,
  CO2_WAVELENGTH,
  FIRE_REMINDER,
  inMicrometres,
  type CautionForm,
  type Cautions,
} from './cautions.ts';
export { findingAt } from './finding-at.ts';
export { lookup } from './lookup.ts';
export { mountOf } from './mount-of.ts';
export { harmless, harmlessLines } from './harmless.ts';
export { hundredths, lengthsIn, type Lengths } from './lengths.ts';
export { quantityInWords, unitFor } from './dimension-units.ts';
export {
  isOutside,
  limitFor,
  nextMeasured,
  measuredInWords,
  measureLimitInWords,
  NOTHING_MEASURED,
  type Measurements,
} from './measured.ts';
export { nameInCell } from './name-in-cell.ts';
export { nearest } from './nearest.ts';
export { checkKey } from './check-key.ts';
export { cellPlace, withCellPlaces } from './cell-places.ts';
export { withParts } from './with-parts.ts';
export { cornerAt, cornerOf } from './corner-words.ts';
export { amountInWords, clockSense, sense, turnInCell, turnsInWords } from './turn-words.ts';
export { dayOf, addDays, daysBetween, addInterval } from './calendar.ts';
export {
  dateAt,
  isWork,
  judgedIn,
  judgedUntil,
  opensVisit,
  nextPhase,
  visitsIn,
  type Stretch,
  type Visit,
  type VisitPhase,
} from './visits.ts';
