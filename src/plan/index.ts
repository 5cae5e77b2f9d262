/** The search for moves, in numbers. */
export { affects, moveOf, shifting, turnAdjuster, type Adjuster } from './adjusters.ts';
export { isAtReach, leastSquaresAmounts } from './amounts.ts';
export { Effects } from './effects.ts';
export { afterShots, MOST_REPEATS, shotsNeeded } from './hypothetical.ts';
export { simplerMove, type SimplerMove } from './simpler-move.ts';
export { COST, PROBABILITY, UTILISATION } from './costs.ts';
export { plan, type Plan } from './plan.ts';
export { planFor } from './plan-for.ts';
export {
  chanceAfter,
  predictedDemands,
  helps,
  isFirstOfTwo,
  MOST_STATIONS,
  placesRead,
  tiltAfter,
  withPlacesUnread,
  worsens,
  WORTH_A_WARNING,
  type Limited,
  type Work,
} from './work.ts';
export { withSafeTurns, type SafePlan } from './safe-turns.ts';
