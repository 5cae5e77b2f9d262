/** A mark outside the hole that the tape covers: most often inches for millimetres. */
import type { Finding, LogEntry } from '../../model/index.ts';
import type { State } from '../state.ts';
import { at } from './rule.ts';

export function outside(logged: LogEntry, { system }: State): Finding[] {
  const { entry } = logged;
  if (entry.kind !== 'marks' || !system) return [];
  const element = system.machine.path.find(({ name }) => name === entry.station);
  if (!element) return [];
  const radius = element.aperture / 2;
  return entry.shots.filter((shot) => shot.height === 0).flatMap((shot) => shot.marks.flatMap((mark) => {
    const distance = Math.hypot(mark.right ?? 0, mark.up ?? 0);
    return distance > radius ? [at(logged, shot.path, 'mark.outside', { distance: distance.toFixed(1), radius: radius.toFixed(1) })] : [];
  }));
}

