/** The machine as a model: its places, unknowns and moves, and marks predicted by the exact trace. */
export { ellipse } from './ellipse.ts';
export { grouped } from './grouped.ts';
export { withLocking } from './locking.ts';
export { alternatives, fixOf, RESPONSES, whatIsWrong, ALTERNATIVE, WRITTEN, type Alternative } from './mount-doubt.ts';
export {
  joined,
  NO_MOVE,
  screwKey,
  TUBE,
  withDisturbance,
  withShift,
  withTubeMove,
  withTurn,
  type Disturbance,
  type Move,
} from './move.ts';
export { afterNewTube, isTubeNewAfter } from './new-tube.ts';
export {
  hasNuts,
  needsLoosening,
  NO_NUTS,
  nutsAfter,
  turnsWhileTight,
  unknownNuts,
  untightened,
  type NutStates,
} from './nuts.ts';
export { finished } from './finished.ts';
export { once } from './once.ts';
export {
  areOpposite,
  legsOf,
  othersAt,
  PlaceIndex,
  placesNeeded,
  placesOf,
  queryAt,
  sameCarriages,
  stopAt,
  type Place,
} from './places.ts';
export { isMark, points, type Mark, type Point } from './points.ts';
export { marksAt, sensitivity, type Query, type Sensitivity, type OperatingPoint } from './sensitivity.ts';
export { added, items, type SharedList } from './shared-list.ts';
export { shifted } from './shifted.ts';
export { moveOfStep, moveOfSteps } from './step-moves.ts';
export {
  carriagesAt,
  pistonEffect,
  prior,
  station,
  system,
  type ScrewPlace,
  type Station,
  type System,
  type Travel,
} from './system.ts';
export { threads } from './threads.ts';
export { BEND, CARRIAGE_UNKNOWNS } from './unknowns.ts';
