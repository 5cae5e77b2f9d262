/**
 * A tube or a block that is moved so far that the beam leaves the aperture: inches for millimetres, or a slip of the
 * decimal point.
 */
import { findingAt, lengthsIn, pathTo, type AdjustEntry, type Finding, type LogEntry } from '../model/index.ts';
import { estimate, predict, type State } from '../estimate/index.ts';
import { NO_MOVE, TUBE, queryAt, carriagesAt, station, type Station } from '../machine/index.ts';
import { meant, slipFacts, slips, type Point } from './slips.ts';
import { shiftInWords } from '../words/index.ts';

export function farShift(logged: LogEntry, state: State): Finding[] {
  const { entry } = logged;
  if (entry.kind !== 'adjust' || !entry.shift || entry.shift.end !== undefined || !state.system) return [];
  const at = entry.part === TUBE ? state.system.stations[0] : station(state.system, entry.part);
  const before = at && beamOn(at, state);
  if (!at || !before) return [];
  const radius = at.element.aperture / 2;
  const by = acrossOf(entry, at);
  const after = (one: Point) => Math.hypot(before.right + one.right, before.up + one.up);
  // A shift that brings a lost beam back may be as large as needed.
  if (after(by) <= radius || after(by) <= Math.hypot(before.right, before.up)) return [];
  const slip = slips(at.units).find(
    (one) => one.numbers === 'all' && one.factor < 1 && after(meant(by, one)) <= radius,
  );
  const { read } = lengthsIn(at.units);
  const wording = slip
    ? shiftInWords(
        [entry.shift.by[0] * slip.factor, entry.shift.by[1] * slip.factor, entry.shift.by[2] * slip.factor],
        slip.kind === 'unit' ? 'mm' : at.units,
      )
    : '';
  return [
    findingAt(logged, pathTo('shift'), 'shift.far', {
      off: read(after(by)),
      station: at.name,
      radius: read(radius),
      ...slipFacts(slip, wording),
    }),
  ];
}

/** The predicted mark on a tape there before the move, mm, with the carriages at their nearest. */
function beamOn(at: Station, state: State): Point | undefined {
  const estimated = estimate(state);
  const predicted = estimated && predict(estimated, [queryAt(at, carriagesAt(at, {}))], NO_MOVE);
  return predicted && { right: predicted.mean[0]!, up: predicted.mean[1]! };
}

/** The displacement of the mark, mm: that of the tube, or the opposite of a block's, which carries the tape. */
function acrossOf({ part, shift }: AdjustEntry, { viewer }: Station): Point {
  const along = (axis: readonly number[]) =>
    shift!.by.reduce((sum, amount, k) => sum + amount * axis[k]!, 0) * (part === TUBE ? 1 : -1);
  return { right: along(viewer.right), up: along(viewer.up) };
}
