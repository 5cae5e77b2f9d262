/**
 * When lock nuts are tightened, and what is shot again afterwards: tightening moves mirrors.
 *
 * Tried on 100 machines whose nuts each tilt the mirror by 0.5 mrad when they are loosened and when they are tightened
 * (median and 95th percentile of shots): all mirrors at the end 48 and 90; each when it is done 40 and 78; each with
 * the turn that is probably its last, before that is shot, 28 and 72. The last way is used: it saves the shot in
 * between.
 */
import type { Step } from '../model/index.ts';
import { probabilityAfter, type Demand, type StationVerdict } from '../verdict/index.ts';
import { moveOf, PROBABILITY, type Plan } from '../plan/index.ts';
import type { Estimate, State } from '../estimate/index.ts';
import { withLocking, joined, NO_MOVE, hasNuts, untightened, type System } from '../machine/index.ts';
import { shoot, shotsAfresh, type Shoot } from './shooting.ts';
import { lockStep } from './steps.ts';
import { listed } from '../words/index.ts';

/**
 * The nuts that are tightened with a move, if the move probably brings everything up to the station within even so.
 *
 * @param demands of the station and those before it
 * @returns the parts, none if it is probably not the last turn; and the chance after tightening them
 */
export function tightenedWith(
  estimate: Estimate,
  { adjusters, amounts, probability }: Pick<Plan, 'adjusters' | 'amounts' | 'probability'>,
  demands: readonly Demand[],
): { readonly parts: readonly string[]; readonly probability: number } {
  const { system } = estimate;
  const turned = new Set(adjusters.filter(({ kind }) => kind !== 'shift').map(({ part }) => part));
  const parts = [...turned].filter((part) => hasNuts(system, part));
  if (parts.length === 0) return { parts, probability };
  const move = joined(
    moveOf(adjusters, amounts),
    parts.reduce((locks, part) => withLocking(locks, system, part), NO_MOVE),
  );
  const tight = demands.reduce((product, demand) => product * probabilityAfter(demand, estimate, move), 1);
  return tight >= PROBABILITY.even ? { parts, probability: tight } : { parts: [], probability };
}

/**
 * Nuts that are loose or to be tightened on mirrors whose turns are done: the first station behind the mirror is
 * within, and so are those before it.
 *
 * @param limited stations with limits, in the order of the path
 * @param target the first of them that is not within
 * @returns the nuts, then the shot of the first station that they may have moved; empty if no nut is to be tightened
 * now
 */
export function tightening(
  state: State,
  system: System,
  limited: readonly StationVerdict[],
  target: StationVerdict | undefined,
): readonly Step[] {
  const within = limited.slice(0, target ? limited.indexOf(target) : limited.length);
  const parts = untightened(state).filter(
    (part) => target === undefined || within.some(({ station }) => station.index > indexOf(system, part)),
  );
  if (parts.length === 0) return [];
  const first = limited.find(({ station }) => parts.some((part) => station.index > indexOf(system, part)));
  const moved = first ? ` Tightening moves the mirror a little: shoot ${first.station.name} again.` : '';
  const why = `The turns of ${listed(parts)} are done.${moved}`;
  return [...parts.map((part, k) => lockStep(part, 'tight', k === 0 ? why : undefined)), ...shotOf(first)];
}

function shotOf(first: StationVerdict | undefined): Shoot[] {
  return first ? [shoot(first.station, shotsAfresh(first, NO_MOVE, true))] : [];
}

/** Index of a part in the path; −1 for the tube. */
function indexOf({ stations }: System, part: string): number {
  return stations.findIndex(({ name }) => name === part);
}
