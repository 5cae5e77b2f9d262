/** The station that is worked now, with those before and after it, and what is asked where the marks say where the beam lands. */
import { moveOf } from './adjusters.ts';
import { isAtReach } from './amounts.ts';
import { NO_MOVE, queryAt, sameCarriages, carriagesAt, type Move, type Station } from '../machine/index.ts';
import { predict, type Estimate } from '../estimate/index.ts';
import { demandQueries, measures, probabilityAfter, type Demand, type StationVerdict } from '../verdict/index.ts';
import type { Plan } from './plan.ts';

export type Limited = StationVerdict & { readonly demand: Demand };

/** The station that is worked, and those before and after it. */
export interface Work {
  readonly target: Limited;
  readonly before: readonly Limited[];
  readonly after: readonly Limited[];
}

/** No machine has so many; a file may. */
export const MOST_STATIONS = 6;

/**
 * What is asked of a station at the places of which its marks, or earlier ones, say where the beam lands, and where it missed. Any other is shot
 * after the move: nothing about the move depends on it, and the same shot then shows both.
 */
function placesPredicted({ demand, station, fresh }: Limited, estimate: Estimate): Demand {
  const places = demand.places.filter(({ carriages }) => {
    const predicted = predict(estimate, [queryAt(station, carriages)], NO_MOVE);
    if (!predicted) return false;
    const [rr, , , uu] = predicted.covariance.data;
    const isMissed = fresh.some(
      (reading) => reading.none && reading.height === 0 && sameCarriages(reading.carriages, carriages),
    );
    return isMissed || Math.sqrt(Math.max(rr!, uu!)) <= KNOWN;
  });
  return places.length > 0 ? { ...demand, places } : demand;
}

/** mm, standard uncertainty: twice that of a reading. */
const KNOWN = 0.5;

/** What is asked of the station and of those before it, where it is known. */
export function predictedDemands(estimate: Estimate, { target, before }: Work): Demand[] {
  return [...before.slice(-MOST_STATIONS), target].map((one) => withUsualPlumb(placesPredicted(one, estimate), one));
}

/** rad: a lens without a plumb limit of its own is not steered to by leaning a beam that is known to be plumb. Common practice, no source. */
const USUAL_PLUMB = 0.012;

function withUsualPlumb(demand: Demand, { station, fresh }: Limited): Demand {
  const isMeasured =
    station.element.kind === 'lens' && demand.limits.plumb === undefined && fresh.some(({ height }) => height > 0);
  return isMeasured ? { ...demand, limits: { ...demand.limits, plumb: USUAL_PLUMB } } : demand;
}

export function placesRead({ demand, fresh }: Pick<Limited, 'demand' | 'fresh'>): Demand['places'] {
  return demand.places.filter(({ carriages }) =>
    fresh.some((reading) => reading.height === 0 && sameCarriages(reading.carriages, carriages)),
  );
}

/** The same with places that were not shot since the beam moved only. */
export function withPlacesUnread({ demand, ...target }: Limited): Limited {
  const read = placesRead({ demand, ...target });
  return { ...target, demand: { ...demand, places: demand.places.filter((place) => !read.includes(place)) } };
}

/** Whether a move that is good at the places that are known takes the worst of all places farther off, as predicted, and makes the station no likelier to be within. */
export function worsens(estimate: Estimate, demand: Demand, move: Move): boolean {
  const [now, then] = [NO_MOVE, move].map((one) => maxUtilisation(estimate, demand, one));
  return then! >= now! && probabilityAfter(demand, estimate, move) <= probabilityAfter(demand, estimate, NO_MOVE);
}

/** The largest share of a limit by the most probable marks; infinite where the beam would miss a tape's plane. */
function maxUtilisation(estimate: Estimate, demand: Demand, move: Move): number {
  return Math.max(...(utilisations(estimate, demand, move) ?? [Infinity]));
}

/** Of centre, spread and plumb, by the most probable marks; 0 where there is no limit. */
function utilisations(estimate: Estimate, demand: Demand, move: Move): number[] | undefined {
  const predicted = predict(estimate, demandQueries(demand), move);
  if (!predicted) return undefined;
  const measured = measures(demand, predicted.mean);
  return (['centre', 'spread', 'plumb'] as const).map(
    (limit) => (measured[limit] ?? 0) / (demand.limits[limit] ?? Infinity),
  );
}

export function chanceAfter(estimate: Estimate, demands: readonly Demand[], move: Move): number {
  return demands.reduce((product, demand) => product * probabilityAfter(demand, estimate, move), 1);
}

/** What a move must leave of the largest share of a limit to be one of two. */
const HELPS = 0.95;

export function helps({ worst, before }: Plan): boolean {
  return worst <= HELPS * before;
}

/** What is then left of the largest share. */
const MOST_OF_THE_WAY = 0.6;

/** Whether a move that is not likely to do it is the first of two: it would do it but for what hand and screws leave open, goes as far as one advice does, or most of the way. */
export function isFirstOfTwo(estimate: Estimate, demands: readonly Demand[], plan: Plan): boolean {
  if (!helps(plan)) return false;
  const { adjusters, amounts } = plan;
  const move = moveOf(adjusters, amounts);
  if (demands.every((demand) => maxUtilisation(estimate, demand, move) <= 1)) return true;
  // Turned little for caution's sake.
  if (adjusters.some(({ most = Infinity }) => most < Infinity)) return true;
  const isFarther =
    plan.worst <= MOST_OF_THE_WAY * plan.before || adjusters.some((adjuster, k) => isAtReach(adjuster, amounts[k]!));
  return isFarther && demands.every((demand) => spoilsNothing(estimate, demand, move));
}

/** Whether no limit that is met, as predicted, is exceeded afterwards, and none that is not by more. */
function spoilsNothing(estimate: Estimate, demand: Demand, move: Move): boolean {
  const [now, then] = [NO_MOVE, move].map((one) => utilisations(estimate, demand, one));
  return now !== undefined && then?.every((utilisation, k) => utilisation <= Math.max(1, now[k]!)) === true;
}

/** By how much a move tilts the beam that arrives at a station, rad. */
export function tiltAfter(estimate: Estimate, station: Station, move: Move): number | undefined {
  const at = carriagesAt(station, {});
  const [then, now] = [move, NO_MOVE].map(
    (one) =>
      predict(
        estimate,
        [0, RUN].map((height) => queryAt(station, at, height)),
        one,
      )?.mean,
  );
  return (
    then && now && Math.hypot(then[2]! - then[0]! - now[2]! + now[0]!, then[3]! - then[1]! - now[3]! + now[1]!) / RUN
  );
}

/** mm along the beam. */
const RUN = 100;
/** rad: at a lens of 50 mm focal length half a millimetre of the spot. */
export const WORTH_A_WARNING = 0.01;
