/** The search for moves, in numbers. */
export { type Adjuster, affects, moveOf, shifting, turnOf } from './adjusters.ts';
export { isAtReach, wanted } from './amounts.ts';
export { Effects } from './effects.ts';
export { afterShots, shotsNeeded } from './hypothetical.ts';
export { instead, type Instead } from './instead.ts';
export { plan, type Plan, SHOT } from './plan.ts';
export { planned } from './planned.ts';
export {
  chanceAfter,
  demandsKnown,
  helps,
  isFirstOfTwo,
  type Limited,
  MOST_STATIONS,
  placesRead,
  tiltAfter,
  withPlacesUnread,
  type Work,
  worsens,
  WORTH_A_WARNING,
} from './work.ts';
export { type SafePlan, withSafeTurns } from './safe-turns.ts';
