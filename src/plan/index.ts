/** The search for moves, in numbers. */
export { affects, moveOf, shifting, turnOf, type Adjuster } from './adjusters.ts';
export { isAtReach, wanted } from './amounts.ts';
export { Effects } from './effects.ts';
export { afterShots, shotsNeeded } from './hypothetical.ts';
export { instead, type Instead } from './instead.ts';
export { plan, SHOT, type Plan } from './plan.ts';
export { planned } from './planned.ts';
export {
  chanceAfter,
  demandsKnown,
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
