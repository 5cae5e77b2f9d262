/**
 * Where nobody knows what a screw does, one small turn tells: the next screw that has not been tried, on the mirror
 * nearest before the station.
 */
import type { Step } from '../model/index.ts';
import type { Estimate } from './estimate.ts';
import { NO_MOVE, screwKey, withTurn, type Move } from './move.ts';
import { isMark, points } from './points.ts';
import type { Standing } from './report.ts';
import type { State } from './state.ts';
import { turnOf } from './adjusters.ts';
import { stepsOf } from './steps.ts';
import type { ScrewPlace } from './system.ts';

/** Turns: enough to be told from the reading's noise on a long leg; half of it where a mark is far out already. */
export const TRIAL = 1 / 8;
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
  const turns = farOut(target) ? TRIAL / 2 : TRIAL;
  const why = `Nobody has written down where the screws of ${screw.part} bear, so what screw ${screw.screw} does is learnt by a small trial turn: the next marks on ${target.report.name} tell it.`;
  return { steps: stepsOf(state, system, [turnOf(screw)], [turns], why), move: withTurn(NO_MOVE, screw.part, screw.screw, turns) };
}

function isKnown({ system, belief: { values, covariance } }: Estimate, screw: ScrewPlace): boolean {
  if (screw.effect) return true;
  const index = system.unknowns.gain(system.screws.indexOf(screw));
  const variance = (at: number) => covariance.data[at * (covariance.columns + 1)]!;
  return Math.hypot(values[index]!, values[index + 1]!) > KNOWN * Math.sqrt(Math.max(variance(index), variance(index + 1)));
}

function farOut({ fresh, station }: Standing): boolean {
  const radius = station.element.aperture / 2;
  return points(fresh).filter(isMark).some((mark) => Math.hypot(mark.right, mark.up) > radius / 2);
}
