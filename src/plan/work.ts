/**
 * The station that is being aligned, with those before and after it, and its demands at the places where the mark is
 * known.
 */
import { UTILISATION } from './costs.ts';
import { moveOf } from './adjusters.ts';
import { isAtReach } from './amounts.ts';
import { NO_MOVE, queryAt, sameCarriages, carriagesAt, type Move, type Station } from '../machine/index.ts';
import { predict, predictMark, type Estimate } from '../estimate/index.ts';
import { demandQueries, measures, probabilityAfter, type Demand, type StationVerdict } from '../verdict/index.ts';
import type { Plan } from './plan.ts';

/** A station with limits. */
export type Limited = StationVerdict & { readonly demand: Demand };

/** The station that is being aligned, and those before and after it. */
export interface Work {
  readonly target: Limited;
  readonly before: readonly Limited[];
  readonly after: readonly Limited[];
}

/** Maximum number of stations: no machine has more; a file may. */
export const MOST_STATIONS = 6;

/**
 * The demand of a station at the places where the mark is predicted well enough, and where the beam missed. Other
 * places are shot after the move: the move does not depend on them, and the same shot shows both.
 */
function placesPredicted({ demand, station, fresh }: Limited, estimate: Estimate): Demand {
  const places = demand.places.filter(({ carriages }) => {
    const predicted = predictMark(estimate, queryAt(station, carriages), NO_MOVE);
    if (!predicted) return false;
    const isMissed = fresh.some(
      (reading) => reading.none && reading.height === 0 && sameCarriages(reading.carriages, carriages),
    );
    return isMissed || Math.sqrt(Math.max(predicted.rightVariance, predicted.upVariance)) <= KNOWN;
  });
  return places.length > 0 ? { ...demand, places } : demand;
}

/** mm: standard uncertainty of a known mark, twice that of a reading. */
const KNOWN = 0.5;

/** The demands of the station and of those before it, at the known places. */
export function predictedDemands(estimate: Estimate, { target, before }: Work): Demand[] {
  return [...before.slice(-MOST_STATIONS), target].map((limited) =>
    withUsualPlumb(placesPredicted(limited, estimate), limited),
  );
}

/**
 * rad: a lens without a plumb limit of its own is not reached by tilting a beam that was measured as plumb. Common
 * practice, no source.
 */
const USUAL_PLUMB = 0.012;

function withUsualPlumb(demand: Demand, { station, fresh }: Limited): Demand {
  const isMeasured =
    station.element.kind === 'lens' && demand.limits.plumb === undefined && fresh.some(({ height }) => height > 0);
  return isMeasured ? { ...demand, limits: { ...demand.limits, plumb: USUAL_PLUMB } } : demand;
}

/** The places of a demand with a fresh reading. */
export function placesRead({ demand, fresh }: Pick<Limited, 'demand' | 'fresh'>): Demand['places'] {
  return demand.places.filter(({ carriages }) =>
    fresh.some((reading) => reading.height === 0 && sameCarriages(reading.carriages, carriages)),
  );
}

/** The same station with only the places that were not shot since the beam moved. */
export function withPlacesUnread({ demand, ...target }: Limited): Limited {
  const read = placesRead({ demand, ...target });
  return { ...target, demand: { ...demand, places: demand.places.filter((place) => !read.includes(place)) } };
}

/**
 * Whether a move that is good at the known places increases the largest predicted utilisation of all places, and does
 * not increase the probability that the station is within.
 */
export function worsens(estimate: Estimate, demand: Demand, move: Move): boolean {
  const [now, then] = [NO_MOVE, move].map((one) => maxUtilisation(estimate, demand, one));
  return then! >= now! && probabilityAfter(demand, estimate, move) <= probabilityAfter(demand, estimate, NO_MOVE);
}

/**
 * The largest utilisation of a limit by the most probable marks; infinite where the beam misses the plane of a tape.
 */
function maxUtilisation(estimate: Estimate, demand: Demand, move: Move): number {
  return Math.max(...(utilisations(estimate, demand, move) ?? [Infinity]));
}

/** Utilisation of centre, spread and plumb by the most probable marks; 0 without a limit. */
function utilisations(estimate: Estimate, demand: Demand, move: Move): number[] | undefined {
  const predicted = predict(estimate, demandQueries(demand), move);
  if (!predicted) return undefined;
  const measured = measures(demand, predicted.mean);
  return (['centre', 'spread', 'plumb'] as const).map(
    (limit) => (measured[limit] ?? 0) / (demand.limits[limit] ?? Infinity),
  );
}

/** The product of the probabilities that each demand is met after a move. */
export function chanceAfter(estimate: Estimate, demands: readonly Demand[], move: Move): number {
  return demands.reduce((product, demand) => product * probabilityAfter(demand, estimate, move), 1);
}

/** Whether a plan reduces the largest utilisation enough. */
export function helps({ worst, before }: Plan): boolean {
  return worst <= UTILISATION.improved * before;
}

/**
 * Whether a move that is not likely to suffice is the first of two: it would suffice without the uncertainty of hand
 * and screws, or it has the maximum amount of one advice, or it goes most of the way.
 */
export function isFirstOfTwo(estimate: Estimate, demands: readonly Demand[], plan: Plan): boolean {
  if (!helps(plan)) return false;
  const { adjusters, amounts } = plan;
  const move = moveOf(adjusters, amounts);
  if (demands.every((demand) => maxUtilisation(estimate, demand, move) <= 1)) return true;
  // A small turn by caution.
  if (adjusters.some(({ most = Infinity }) => most < Infinity)) return true;
  const isFarther =
    plan.worst <= UTILISATION.mostOfTheWay * plan.before ||
    adjusters.some((adjuster, k) => isAtReach(adjuster, amounts[k]!));
  return isFarther && demands.every((demand) => spoilsNothing(estimate, demand, move));
}

/** Whether no limit that is met by prediction is exceeded afterwards, and no exceeded one by more. */
function spoilsNothing(estimate: Estimate, demand: Demand, move: Move): boolean {
  const [now, then] = [NO_MOVE, move].map((one) => utilisations(estimate, demand, one));
  return now !== undefined && then?.every((utilisation, k) => utilisation <= Math.max(1, now[k]!)) === true;
}

/** The tilt of the beam that arrives at a station by a move, rad. */
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
/** rad: half a millimetre of the spot at a lens of 50 mm focal length. */
export const WORTH_A_WARNING = 0.01;
