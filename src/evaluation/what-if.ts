/** Predicted marks after hypothetical turns: the same prediction that the advice uses. */
import type { Expected, TriedTurn } from '../model/index.ts';
import { estimate, predict, type State } from '../estimate/index.ts';
import { NO_MOVE, withTurn, placesOf, station, type Move } from '../machine/index.ts';
import { demandQueries, measures, probabilityAfter, stationVerdict } from '../verdict/index.ts';
import { requestAt, expectations, shoot } from '../advice/index.ts';

/** Predicted marks at every place of the station, mm, reading noise included. The screws must exist in the machine. */
export function whatIf(state: State, name: string, turns: readonly TriedTurn[]): Expected[] {
  const estimated = estimate(state);
  const at = estimated && station(estimated.system, name);
  if (!estimated || !at) return [];
  const move = moveOf(turns);
  const shown = stationVerdict(state, at, estimated).report.readings.filter(({ height }) => height === 0);
  const places =
    shown.length > 0 ? shown.map(({ at, with: others }) => ({ at, with: others })) : placesOf(at).map(requestAt);
  return expectations(state, estimated, shoot(at, places), move);
}

/** What a station's limits are predicted to be met by: mm, plumb in rad; and the probability that all are. */
export interface Outlook {
  readonly centre?: number;
  readonly spread?: number;
  readonly plumb?: number;
  readonly probability: number;
}

/** After hypothetical turns, by the most probable marks. Undefined without limits. */
export function outlook(state: State, name: string, turns: readonly TriedTurn[]): Outlook | undefined {
  const estimated = estimate(state);
  const at = estimated && station(estimated.system, name);
  const demand = estimated && at && stationVerdict(state, at, estimated).demand;
  if (!estimated || !demand) return undefined;
  const move = moveOf(turns);
  const predicted = predict(estimated, demandQueries(demand), move);
  return predicted && { ...measures(demand, predicted.mean), probability: probabilityAfter(demand, estimated, move) };
}

function moveOf(turns: readonly TriedTurn[]): Move {
  return turns.reduce((so, { part, screw, turns: amount }) => withTurn(so, part, screw, amount), NO_MOVE);
}

/** Screws of the mirrors before a station, the nearest mirror first. */
export function screwsBefore(state: State, name: string): readonly { readonly part: string; readonly screw: string }[] {
  const { system } = state;
  const at = system && station(system, name);
  if (!at) return [];
  return system.screws
    .filter(({ mirror }) => mirror < at.index)
    .toSorted((one, other) => other.mirror - one.mirror)
    .map(({ part, screw }) => ({ part, screw }));
}
