/**
 * Machines for practice, simulated on the exact optics alone: what is hidden is a function of the seed, the level and
 * the cells of the log.
 */
export { burnAt, TAPE_REACH, type Burn, type FiredAt } from './burn.ts';
export { draws, type Draws } from './draw.ts';
export { COLLEAGUE, colleaguesTurn, type Fault } from './fault.ts';
export { hiddenMachine, type Hidden } from './hidden.ts';
export { describedResponse } from './response.ts';
export { stateAfter, type HiddenState } from './state.ts';
export { worstUtilisation, type TrueUtilisation } from './truth.ts';
export { burntTape, type BurntTape, type Outline } from './tape.ts';
