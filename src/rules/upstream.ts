/**
 * Screws that aim the beam onward are turned while the beam is clearly out of limits there or before: the work has to
 * be repeated.
 */
import {
  findingAt,
  lookup,
  pathTo,
  type AdjustEntry,
  type Finding,
  type LogEntry,
  type StationLimits,
} from '../model/index.ts';
import { runFilter, contradiction, scaled, isUsed, freshReadings, type State } from '../estimate/index.ts';
import { isMark, points, station, type Point, type Station } from '../machine/index.ts';

/** Standard uncertainties past the limit: a mark that may be within is not reported. */
const PLAINLY = 2;

export function upstream(logged: LogEntry, state: State): Finding | undefined {
  const { entry } = logged;
  const turned = entry.kind === 'adjust' && isAimed(entry) && state.system && station(state.system, entry.part);
  if (!turned) return undefined;
  const wrong = state.system.stations.slice(0, turned.index + 1).find((one) => arrivesWrong(state, one));
  return wrong && findingAt(logged, pathTo('turn'), 'order.upstream', { station: wrong.name, part: turned.name });
}

/** Whether the turns tilt the plate: all screws alike move it straight, which corrects an offset. */
function isAimed({ turns }: AdjustEntry): boolean {
  const amounts = Object.values(turns);
  return amounts.length > 0 && (amounts.length < 3 || amounts.some((amount) => amount !== amounts[0]));
}

function arrivesWrong(state: State, station: Station): boolean {
  const limits = state.limits && lookup(state.limits.stations, station.name);
  const fresh = freshReadings(state, station);
  if (limits === undefined || !isPlainlyOutside(points(fresh), limits)) return false;
  // Marks that are set aside or misread are not used, and reading may be worse than declared; the filter runs only if
  // it matters.
  const filtered = state.segment && runFilter(state.segment);
  return (
    !filtered ||
    isPlainlyOutside(
      points(
        scaled(
          fresh.filter((reading) => isUsed(filtered, reading) && !contradiction(reading, filtered.contradictions)),
          filtered.noise,
        ),
      ),
      limits,
    )
  );
}

/** A missed tape is outside any limit. */
function isPlainlyOutside(shot: readonly Point[], { centre = Infinity, spread = Infinity }: StationLimits): boolean {
  const marks = shot.filter(isMark);
  return (
    shot.some(({ none }) => none) ||
    marks.some(
      (mark) =>
        Math.hypot(mark.right, mark.up) > centre + PLAINLY * mark.u ||
        marks.some(
          (other) =>
            Math.hypot(mark.right - other.right, mark.up - other.up) > spread + PLAINLY * Math.hypot(mark.u, other.u),
        ),
    )
  );
}
