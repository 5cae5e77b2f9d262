/**
 * A fast linear model of moves and demands: the present value and variance of every term, and per adjuster the change
 * and the variance of a unit. A search tries thousands of moves on it; the results are then evaluated by the exact
 * trace.
 *
 * All as fractions of the limits: `utilisation` right, up per term; variances of one axis of a term.
 */
import { type Matrix, variance, varianceAt, varianceOfDifference } from '../statistics/index.ts';
import { moveOf, type Adjuster } from './adjusters.ts';
import { predict, propagate, handVariance, type Estimate, type Distribution } from '../estimate/index.ts';
import type { Demands } from '../verdict/index.ts';
import { NO_MOVE, screwKey, marksAt, type Sensitivity } from '../machine/index.ts';

/**
 * The effect of one adjuster. A move by `a` adds `utilisation`·a, and the variance `squared`·a² + `constant`·[a ≠ 0] +
 * `linear`·|a|.
 */
export interface Effect {
  readonly utilisation: Float64Array;
  /** Uncertainty of the screw's effect: relative. */
  readonly squared: Float64Array;
  /** Uncertainty of the hand on a screw: in proportion to the turn. */
  readonly linear: Float64Array;
  /** Uncertainty of the hand on a block: independent of the amount. */
  readonly constant: Float64Array;
}

/** The present value of every term, and the effect of each adjuster. Terms are in the order of `Demands.terms`. */
export interface LinearModel {
  readonly utilisation: Float64Array;
  readonly variances: Float64Array;
  readonly upstreamCount: number;
  readonly requiredCount: number;
  per(adjuster: Adjuster): Effect;
}

/** The linear model at an estimate, with the effects of adjusters cached. */
export class Effects implements LinearModel {
  readonly utilisation: Float64Array;
  readonly variances: Float64Array;
  readonly upstreamCount: number;
  readonly requiredCount: number;
  readonly #estimate: Estimate;
  readonly #demands: Demands;
  readonly #base: Float64Array;
  /** By unknown: its effect on every term, squared, the mean of both axes. */
  readonly #squares: readonly Float64Array[];
  readonly #effects = new Map<Adjuster, Effect>();

  private constructor(
    estimate: Estimate,
    demands: Demands,
    base: Float64Array,
    covariance: Matrix,
    sensitivities: readonly Sensitivity[],
  ) {
    this.#estimate = estimate;
    this.#demands = demands;
    this.#base = base;
    this.upstreamCount = demands.upstreamCount;
    this.requiredCount = demands.requiredCount;
    this.utilisation = demands.utilisation(base);
    this.variances = Float64Array.from(
      demands.terms,
      ({ one, other, inverseLimit }) => inverseLimit ** 2 * varianceOf(covariance, one, other),
    );
    this.#squares = Array.from(sensitivities[0]!.byRight, (_, unknown) => {
      const utilisation = demands.utilisation(
        Float64Array.from(sensitivities.flatMap((mark) => [mark.byRight[unknown]!, mark.byUp[unknown]!])),
      );
      return Float64Array.from(
        demands.terms,
        (_term, t) => (utilisation[2 * t]! ** 2 + utilisation[2 * t + 1]! ** 2) / 2,
      );
    });
  }

  /** Undefined where the beam misses the plane of a tape even without a move. */
  static of(estimate: Estimate, demands: Demands): Effects | undefined {
    const now = predict(estimate, demands.queries, NO_MOVE);
    const sensitivities = demands.queries.map((query) => estimate.now(query));
    return now && new Effects(estimate, demands, now.mean, now.covariance, sensitivities as Sensitivity[]);
  }

  per(adjuster: Adjuster): Effect {
    const effect = this.#effects.get(adjuster) ?? this.#measure(adjuster);
    this.#effects.set(adjuster, effect);
    return effect;
  }

  /** The same model, linearised at the marks that the exact trace gives after a move. */
  about(adjusters: readonly Adjuster[], amounts: readonly number[]): LinearModel {
    const marks = marksAt(propagate(this.#estimate.distribution, moveOf(adjusters, amounts)), this.#demands.queries);
    const utilisation = marks ? this.#demands.utilisation(marks) : this.utilisation;
    const straight = adjusters.map((adjuster) => this.per(adjuster).utilisation);
    const { variances, upstreamCount, requiredCount } = this;
    return {
      utilisation: utilisation.map((entry, i) =>
        straight.reduce((rest, line, k) => rest - amounts[k]! * line[i]!, entry),
      ),
      variances,
      upstreamCount,
      requiredCount,
      per: (adjuster) => this.per(adjuster),
    };
  }

  /** The same model without uncertainty: what could be reached at best. */
  certain(): LinearModel {
    const none = new Float64Array(this.variances.length);
    const { utilisation, upstreamCount, requiredCount } = this;
    return {
      utilisation,
      upstreamCount,
      requiredCount,
      variances: none,
      per: (adjuster) => ({ utilisation: this.per(adjuster).utilisation, squared: none, linear: none, constant: none }),
    };
  }

  #measure(adjuster: Adjuster): Effect {
    const { distribution } = this.#estimate;
    const [step] = adjuster.steps;
    const moved = propagate(distribution, adjuster.apply(NO_MOVE, step));
    const marks = marksAt(moved, this.#demands.queries);
    const per = marks ? marks.map((mark, i) => (mark - this.#base[i]!) / step) : new Float64Array(this.#base.length);
    const hand = this.#termVariances(
      adjuster.kind === 'shift' ? widened(distribution, moved) : this.#handVariances(adjuster, step),
    );
    const nothing = new Float64Array(hand.length);
    return {
      utilisation: this.#demands.utilisation(per),
      squared: this.#termVariances(this.#gainVariances(adjuster)),
      linear: adjuster.kind === 'shift' ? nothing : hand.map((variance) => variance / step),
      constant: adjuster.kind === 'shift' ? hand : nothing,
    };
  }

  /** Variance of each unknown → variance of each term. */
  #termVariances(variances: Float64Array): Float64Array {
    const sum = new Float64Array(this.#demands.terms.length);
    variances.forEach((variance, unknown) => {
      if (variance > 0)
        this.#squares[unknown]!.forEach((square, t) => {
          sum[t]! += variance * square;
        });
    });
    return sum;
  }

  /** Uncertainty of the effect of the screws that one unit turns, as variance of their mirror's slopes. */
  #gainVariances(adjuster: Adjuster): Float64Array {
    const { covariance } = this.#estimate.distribution;
    return this.#perScrew(adjuster, 1, (turned, _key, gain) =>
      [0, 1].map((axis) => turned ** 2 * varianceAt(covariance, gain + axis)),
    );
  }

  /** The hand's error on screws, as variance of their mirror's slopes. */
  #handVariances(adjuster: Adjuster, turns: number): Float64Array {
    const { distribution } = this.#estimate;
    return this.#perScrew(adjuster, turns, (turned, key, gain) =>
      [0, 1].map((axis) => handVariance(distribution, key, turned) * distribution.values[gain + axis]! ** 2),
    );
  }

  #perScrew(
    adjuster: Adjuster,
    amount: number,
    variance: (turned: number, key: string, gain: number) => readonly number[],
  ): Float64Array {
    const {
      system: { unknowns: place, screws, mirrors },
    } = this.#estimate;
    const variances = new Float64Array(place.count);
    const { turns } = adjuster.apply(NO_MOVE, amount);
    screws.forEach(({ part, screw, mirror }, order) => {
      const key = screwKey(part, screw);
      const turned = turns.get(key) ?? 0;
      if (turned === 0) return;
      const slopes = place.pose(mirrors.indexOf(mirror)) + 1;
      variance(turned, key, place.gain(order)).forEach((one, axis) => {
        variances[slopes + axis]! += one;
      });
    });
    return variances;
  }
}

/** The variance that a move adds to each unknown. */
function widened({ covariance: before }: Distribution, { covariance: then }: Distribution): Float64Array {
  return Float64Array.from(before, (_, k) => varianceAt(then, k) - varianceAt(before, k));
}

/** Variance of the distance between two marks (or of one from the centre), the mean of both axes, mm². */
function varianceOf(covariance: Matrix, one: number, other: number | undefined): number {
  const axis = (i: number, k: number | undefined) =>
    k === undefined ? variance(covariance, i) : varianceOfDifference(covariance, i, k);
  const both = [0, 1].map((part) => axis(2 * one + part, other === undefined ? undefined : 2 * other + part));
  return (both[0]! + both[1]!) / 2;
}
