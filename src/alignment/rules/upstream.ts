/** Screws that aim the beam onward are turned while the beam plainly arrives wrong: the work is done twice. */
import { lookup, type AdjustEntry, type Finding, type LogEntry, type StationLimits } from '../../model/index.ts';
import { isMark, points, type Mark } from '../points.ts';
import { freshReadings, type State } from '../state.ts';
import { station } from '../system.ts';
import { at } from './rule.ts';

/** Standard uncertainties past the limit: a mark that may be within is no mistake. */
const PLAINLY = 2;

export function upstream(logged: LogEntry, state: State): Finding | undefined {
  const { entry } = logged;
  const here = entry.kind === 'adjust' && isAimed(entry) && state.system && station(state.system, entry.part);
  const limits = here && state.limits && lookup(state.limits.stations, here.name);
  if (!here || !limits) return undefined;
  const marks = points(freshReadings(state, here)).filter(isMark);
  return isPlainlyOutside(marks, limits) ? at(logged, 'turn', 'order.upstream', { station: here.name }) : undefined;
}

/** All screws alike move the plate straight: that cures an offset. */
function isAimed({ turns }: AdjustEntry): boolean {
  const amounts = Object.values(turns);
  return amounts.length > 0 && (amounts.length < 3 || amounts.some((amount) => amount !== amounts[0]));
}

function isPlainlyOutside(marks: readonly Mark[], { centre = Infinity, spread = Infinity }: StationLimits): boolean {
  return marks.some((one) => Math.hypot(one.right, one.up) > centre + PLAINLY * one.u
    || marks.some((other) => Math.hypot(one.right - other.right, one.up - other.up) > spread + PLAINLY * Math.hypot(one.u, other.u)));
}
