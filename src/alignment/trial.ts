/**
 * Where nobody knows what a screw does, one small turn tells: the next screw that has not been tried, on the mirror
 * nearest before the station.
 */
import type { Step } from '../model/index.ts';
import { predict, type Estimate } from './estimate.ts';
import { NO_MOVE, screwKey, withTurn, type Move } from './move.ts';
import { queryAt } from './places.ts';
import { isMark, points, type Mark } from './points.ts';
import type { Standing } from './report.ts';
import type { State } from './state.ts';
import { turnOf } from './adjusters.ts';
import { stepsOf } from './steps.ts';
import type { ScrewPlace } from './system.ts';

/**
 * Turns. Enough to stand out of the reading's noise by so much that the next turn can be computed, a little more where
 * there is far to go; a smaller one is made twice, and teaches less.
 */
const TRIAL = 3 / 16;
const LARGE_TRIAL = 1 / 4;
/** Turns after which a screw that did nothing is given up: it is seized, or slips. */
const ENOUGH = 1;
/** A screw is known once its effect stands out of its uncertainty by so much. */
const KNOWN = 2;

export function trial(state: State, estimate: Estimate, target: Standing): { readonly steps: readonly Step[]; readonly move: Move } | undefined {
  const { system } = estimate;
  const mirror = system.mirrors.filter((candidate) => candidate < target.station.index).at(-1);
  const tried = ({ part, screw: name }: ScrewPlace) => state.turned.get(screwKey(part, name)) ?? 0;
  const screw = system.screws.find((candidate) => candidate.mirror === mirror && !isKnown(estimate, candidate) && tried(candidate) < ENOUGH);
  if (!screw) return undefined;
  const turns = (farOut(target) ? LARGE_TRIAL : TRIAL) * direction(estimate, screw, target);
  const why = `Nobody has written down where the screws of ${screw.part} bear, so what screw ${screw.screw} does is learnt by a small trial turn: the next marks on ${target.report.name} tell it.`;
  return { steps: stepsOf(state, system, [turnOf(screw)], [turns], why), move: withTurn(NO_MOVE, screw.part, screw.screw, turns) };
}

function isKnown({ system, belief: { values, covariance } }: Estimate, screw: ScrewPlace): boolean {
  if (screw.effect) return true;
  const index = system.unknowns.gain(system.screws.indexOf(screw));
  const variance = (at: number) => covariance.data[at * (covariance.columns + 1)]!;
  return Math.hypot(values[index]!, values[index + 1]!) > KNOWN * Math.sqrt(Math.max(variance(index), variance(index + 1)));
}

function farOut(target: Standing): boolean {
  const mark = farthest(target);
  return mark !== undefined && fromMiddle(mark) > target.station.element.aperture / 4;
}

/** mm at the farthest mark: less is no reason to turn the other way. */
const NEARER = 0.05;

/** In, unless what is guessed of the screw already says that out brings the farthest mark nearer to the middle. */
function direction(estimate: Estimate, { part, screw }: ScrewPlace, target: Standing): 1 | -1 {
  const mark = farthest(target);
  if (!mark) return 1;
  const after = (turns: number) => predict(estimate, [queryAt(target.station, mark.carriages)], withTurn(NO_MOVE, part, screw, turns))?.mean;
  const [turnedIn, turnedOut] = [after(TRIAL), after(-TRIAL)];
  return turnedIn && turnedOut && Math.hypot(turnedOut[0]!, turnedOut[1]!) < Math.hypot(turnedIn[0]!, turnedIn[1]!) - NEARER ? -1 : 1;
}

function farthest({ fresh }: Standing): Mark | undefined {
  return points(fresh).filter(isMark).reduce<Mark | undefined>((far, mark) => (far && fromMiddle(far) >= fromMiddle(mark) ? far : mark), undefined);
}

function fromMiddle({ right, up }: Mark): number {
  return Math.hypot(right, up);
}
