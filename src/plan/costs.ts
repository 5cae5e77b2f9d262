/**
 * Costs and thresholds of planner and advice, one table: the value, its unit, the reason, and the line of `npm run
 * bench:converge` to compare when it changes. None has a published source; all were set by simulated machines.
 */

/** In screws turned: the time of one screw, taken hold of and set. Compare adjustments and shots of the base. */
export const COST = {
  screw: 1,
  /** The nuts of a mirror are loosened and tightened again. Compare `--world nuts`, shots. */
  nuts: 2,
  /** The tube is moved in one holder, or across its axis in both. */
  tube: 4,
  bothEnds: 6,
  /** A block carries the beam with it; the first is cheaper, since nothing before it was aligned to it. */
  firstBlock: 4,
  block: 6,
  /** Both are set to one height: little more than the tube alone, since they are measured together. */
  tubeAndBlock: 4.5,
  /** All screws of a mirror by the same amount. */
  piston: 5,
  /**
   * A whole turn, beyond taking hold: of two equal moves the smaller wins, since a beam steered far is out of plumb.
   */
  turn: 2,
  /** One shot, tape included. */
  shot: 1 / 3,
  /** Another round at a station, if a move fails. */
  round: 30,
  /** Per unit of utilisation above 1: of two moves that both fail, the closer one wins. */
  excess: 3,
  /** The largest cost of one advice: the tube, a block and a screw. */
  most: 11,
  /** The saving from which on a move is preferred to another shot, which may show that nothing needs to be done. */
  saving: 5,
} as const;

/** Probabilities of limits being met. Compare "truly within" and adjustments of the base, and `--world noise=0.58`. */
export const PROBABILITY = {
  /** Below it a further shot comes before a move, and an earlier mirror is touched for a small turn. */
  good: 0.8,
  /** The increase that justifies a further shot before a move. */
  worthAShot: 0.05,
  /**
   * As likely as not: below it nothing is called probable, a trial turn shows more than a move, and no offer is made.
   */
  even: 0.5,
  /** The smallest at which an uncertain move is advised at all, or searched for in steps that a hand can set. */
  worthTrying: 0.3,
  /** The increase that makes a move clearly better than another, or than none. */
  clear: 0.1,
  /** Differences below it do not decide between the tube and screws. */
  same: 0.02,
  /** Above it a further shot may show that nothing needs to be done. */
  notExcluded: 0.1,
} as const;

/** Factors on the largest utilisation, and differences of it (1: at the limit). Compare adjustments of the base. */
export const UTILISATION = {
  /** A move must reach this factor to be an improvement; fine steps must, to be worth the patience. */
  improved: 0.95,
  /** A move beyond the reach of one advice must reach this factor. */
  muchImproved: 0.7,
  /** A move that reaches this factor goes most of the way: it may be the first of two. */
  mostOfTheWay: 0.6,
  /** An easy turn does up to this utilisation, and above it if it adds no more than `easyTurnAdds`. */
  easyTurn: 0.7,
  easyTurnAdds: 0.04,
  /** A set of adjusters with a score up to this can meet the limit: 1, and the small terms of the score. */
  canMeet: 1.1,
  /** From here on a limit is reported as exceeded; below it the probability is reported. */
  exceeded: 1.05,
  /** What one unit of cost must gain for the shortlist. */
  gainPerCost: 0.08,
  /** Differences below it do not decide which way a trial turn goes. */
  same: 0.02,
  /** The difference that justifies a trial turn against the last turn of the screw. */
  clear: 0.3,
} as const;
