/** A double mark, or a crescent: something is loose, cracked or in the way, wherever the mark is. */
import { findingAt, type Finding, type LogEntry } from '../model/index.ts';
import { worstShape, isDoubtful, type State } from '../estimate/index.ts';
import { station } from '../machine/index.ts';
import { whereIn } from '../advice/index.ts';

/** Reported once per shot. */
export function shape(logged: LogEntry, { system }: State): Finding[] {
  const { entry } = logged;
  const on = entry.kind === 'marks' && system && station(system, entry.station);
  if (!on) return [];
  return entry.shots.flatMap((shot): Finding[] => {
    const { shape: worst } = worstShape(shot.marks);
    if (!isDoubtful(worst)) return [];
    return [findingAt(logged, shot.path, `mark.${worst}`, { station: on.name, place: whereIn(on, shot) })];
  });
}
