/** Compares the estimate with the limits: is a station within, and with which probability. */
export { demandQueries, measures, type Demand } from './demand.ts';
export { Demands, termsOf } from './demands.ts';
export { probabilityAfter, jointProbabilityAfter } from './probability.ts';
export { bends, rackings, straightened, type Bend } from './rails.ts';
export {
  carriagesOf,
  frameOf,
  isComplete,
  shotPoints,
  toReading,
  stationVerdict,
  stationVerdicts,
  verdictSteps,
  type StationVerdict,
} from './station-verdict.ts';
