/** Finds marks that grow along the path by more than the beam spreads; reported at the later one. */
import { findingAt, lengthsIn, type Finding, type LogEntry, type StationReport } from '../../model/index.ts';
import { shortPlace } from '../../words/index.ts';
import type { Log } from '../../evaluation/index.ts';
import { growthsIn, type Growth } from '../../light/index.ts';

export function markGrowth(entries: readonly LogEntry[], log: Log): Finding[] {
  return growthsIn(entries).map(({ near, far, expected }) => {
    const later = near.order > far.order ? near : far;
    const report = ({ station }: Growth['far']) => log.report(station, later.order + 1);
    const { read } = lengthsIn(report(far)?.frame.units ?? 'mm');
    return findingAt(entries[later.order]!, later.shot.path, 'mark.growth', {
      far: placeOf(far, report(far)),
      near: placeOf(near, report(near)),
      size: read(far.size),
      from: read(near.size),
      expected: read(expected),
    });
  });
}

/** `M2 far (front)`, `M3 near (left), M2 far (front)`. */
function placeOf({ station, shot }: Growth['far'], report: StationReport | undefined): string {
  return [station, report ? shortPlace(report.carriages, shot.at, shot.with) : '']
    .filter((part) => part !== '')
    .join(' ');
}
