/**
 * Whether a station meets its limits, and how sure that is. A requirement's `value` is the plain reading: the station's own
 * marks alone, at each place the mean of its newest cell's (JCGM 100); where there is none, the model's. Its probability comes
 * from the joint distribution of the marks at all the places that it is about, read or not (JCGM 106); where the plain reading
 * lies over the limit by more than its uncertainty, it is at most the reading's own.
 */
import { chiSquareUpper, riceCdf } from '../statistics/index.ts';
import type { Requirement, Slope } from '../model/index.ts';
import { demandQueries, PLUMB_RUN, type Demand } from './demand.ts';
import { NO_MOVE, sameCarriages, isMark, points, type Place, type Mark } from '../machine/index.ts';
import { predict, plumbFrom, type Estimate, type Prediction, type LoggedReading } from '../estimate/index.ts';
import { probabilities } from './probability.ts';

/** A station's requirements as its fresh readings leave them. */
export interface Conformance {
  readonly requirements: readonly Requirement[];
  readonly probability: number;
  /** Whether no limit is exceeded by what was read of it, as far as the reading tells, nor surely by what is predicted. */
  readonly inside: boolean;
  /** Places whose plain reading contradicts the model: they are asked for again. */
  readonly contradicted: readonly Place[];
}

/** @param noise factor on the declared uncertainty of reading */
export function conformance(
  demand: Demand,
  readings: readonly LoggedReading[],
  estimate: Estimate,
  noise = 1,
): Conformance | undefined {
  const predicted = predict(estimate, demandQueries(demand), NO_MOVE);
  if (!predicted) return undefined;
  const used = readings.map((reading) => ({ ...reading, u: reading.u * noise }));
  const marks = points(used)
    .filter(isMark)
    .filter((mark) => demand.places.some((place) => sameCarriages(place.carriages, mark.carriages)));
  const model = inflateByBirgeRatio(demand, predicted, marks, used);
  const byLimit = probabilities(demand, model);
  const newest = newestMarks(demand, used);
  const measured = [centre(demand, model, newest), spread(demand, model, newest), plumb(demand, model, used)].flatMap(
    (requirement) => requirement ?? [],
  );
  const requirements = measured.map(({ places: _, own, ...requirement }) => ({
    ...requirement,
    probability: Math.min(byLimit[requirement.limit], own ?? 1),
  }));
  const probability = Math.min(byLimit.joint, ...requirements.map((requirement) => requirement.probability));
  return {
    requirements,
    probability,
    inside: requirements.every(({ value = 0, u = 0, max }) => value <= max + u) && probability >= SURELY_OUTSIDE,
    contradicted: measured.flatMap(({ places, own, limit }) =>
      own !== undefined && own < byLimit[limit] ? places : [],
    ),
  };
}

/** Below this probability of being within a station is outside, though the places that fail were not shot. */
const SURELY_OUTSIDE = 0.01;

/** At each place the mean of the marks of its newest cell. */
function newestMarks({ places }: Demand, readings: readonly LoggedReading[]): Mark[] {
  return places.flatMap((place) => {
    const here = readings.filter(
      (reading) => reading.height === 0 && sameCarriages(reading.carriages, place.carriages),
    );
    const last = Math.max(...here.map(({ order }) => order));
    return points(here.filter(({ order }) => order === last)).filter(isMark);
  });
}

/** Below this probability of mere chance the readings and the model disagree, and the readings are believed. */
const MISFIT_PROBABILITY = 0.001;

/**
 * The model's marks, with the readings themselves where they were taken. Where both disagree by more than chance (a
 * mistake in the log, two shots of one place that differ) the model's covariance grows by the ratio of
 * chi-square to its expectation.
 */
function inflateByBirgeRatio(
  { station, places }: Demand,
  { mean, covariance }: Prediction,
  marks: readonly Mark[],
  readings: readonly LoggedReading[],
): Prediction {
  const misfits = readings
    .filter(({ height }) => height === 0)
    .flatMap(({ carriages, right, up, u }) => {
      const i = 2 * places.findIndex((place) => sameCarriages(place.carriages, carriages));
      if (i < 0) return [];
      return [
        right === undefined ? [] : [(right - mean[i]!) / u],
        up === undefined ? [] : [(up - mean[i + 1]!) / u],
      ].flat();
    });
  const chiSquare = misfits.reduce((sum, misfit) => sum + misfit ** 2, 0);
  // Tilt of the mirror before and offset of the aperture take up two marks; the tube's offset takes up one.
  const degreesOfFreedom = Math.max(1, misfits.length - (station.index === 0 ? 2 : 4));
  if (chiSquareUpper(chiSquare, degreesOfFreedom) >= MISFIT_PROBABILITY) return { mean, covariance };
  const read = Float64Array.from(mean);
  for (const mark of marks) {
    const i = 2 * places.findIndex((place) => sameCarriages(place.carriages, mark.carriages));
    read.set([mark.right, mark.up], i);
  }
  return {
    mean: read,
    covariance: { ...covariance, data: covariance.data.map((entry) => entry * (chiSquare / degreesOfFreedom)) },
  };
}

type LimitResult = Omit<Requirement, 'probability'> & {
  /** Where a plain reading was largest. */
  readonly places: readonly Place[];
  /** The plain reading's own probability, where it lies over the limit by more than its uncertainty. */
  readonly own?: number;
};

/** One place's mark, mm, and the standard uncertainty of either part. */
interface PlaceMark {
  readonly place: Place;
  readonly right: number;
  readonly up: number;
  readonly u: number;
}

function readAt({ places }: Demand, marks: readonly Mark[]): PlaceMark[] {
  return places.flatMap((place) =>
    marks
      .filter((mark) => sameCarriages(mark.carriages, place.carriages))
      .map(({ right, up, u }) => ({ place, right, up, u })),
  );
}

function predictedAt({ places }: Demand, { mean, covariance }: Prediction): PlaceMark[] {
  const variance = (index: number) => covariance.data[index * (covariance.columns + 1)]!;
  return places.map((place, i) => ({
    place,
    right: mean[2 * i]!,
    up: mean[2 * i + 1]!,
    u: Math.sqrt((variance(2 * i) + variance(2 * i + 1)) / 2),
  }));
}

/** That a distance of which each part is known to `u` is at most `max`. */
function ownProbability(value: number, u: number, max: number): { own?: number } {
  return value > max + u ? { own: riceCdf(max, value, u) } : {};
}

function centre(demand: Demand, model: Prediction, marks: readonly Mark[]): LimitResult | undefined {
  const max = demand.limits.centre;
  if (max === undefined) return undefined;
  const read = readAt(demand, marks);
  const all = (read.length > 0 ? read : predictedAt(demand, model)).map((mark) => ({
    ...mark,
    value: Math.hypot(mark.right, mark.up),
  }));
  const { place, value, u } = all.reduce((most, mark) => (mark.value > most.value ? mark : most));
  return {
    limit: 'centre',
    ...placeNames(place),
    value,
    u,
    max,
    places: [place],
    ...(read.length > 0 ? ownProbability(value, u, max) : { predicted: true }),
  };
}

function placeNames(place: Place): Pick<Requirement, 'at' | 'with'> {
  return { at: place.at, ...(Object.keys(place.with).length > 0 && { with: place.with }) };
}

function spread(demand: Demand, model: Prediction, marks: readonly Mark[]): LimitResult | undefined {
  const max = demand.limits.spread;
  if (max === undefined) return undefined;
  const read = readAt(demand, marks);
  const all = read.length > 1 ? read : predictedAt(demand, model);
  let worst: { value: number; u: number; places: readonly Place[] } = { value: 0, u: 0, places: [] };
  all.forEach((one, i) =>
    all.slice(0, i).forEach((other) => {
      const value = Math.hypot(one.right - other.right, one.up - other.up);
      if (value >= worst.value) worst = { value, u: Math.hypot(one.u, other.u), places: [other.place, one.place] };
    }),
  );
  return {
    limit: 'spread',
    ...worst,
    max,
    ...(read.length > 1 ? ownProbability(worst.value, worst.u, max) : { predicted: true }),
  };
}

function plumb(demand: Demand, model: Prediction, readings: readonly LoggedReading[]): LimitResult | undefined {
  const max = demand.limits.plumb;
  if (max === undefined) return undefined;
  const read = plumbFrom(readings);
  const slope = read ?? plumbPredicted(demand, model);
  const value = Math.hypot(slope.right, slope.up);
  // Along the slope's own direction (JCGM 100, 5.1.2); where it is zero both axes count alike.
  const u =
    value > 0
      ? Math.hypot(slope.right * slope.u.right, slope.up * slope.u.up) / value
      : Math.hypot(slope.u.right, slope.u.up) / Math.SQRT2;
  return { limit: 'plumb', value, u, max, places: [], ...(read ? ownProbability(value, u, max) : { predicted: true }) };
}

/** Between the two tapes along the beam that come last among the marks. */
function plumbPredicted({ places }: Demand, { mean, covariance: { data, columns } }: Prediction): Slope {
  const axis = (part: 0 | 1) => {
    const [near, far] = [2 * places.length + part, 2 * places.length + 2 + part] as const;
    const variance = data[near * (columns + 1)]! + data[far * (columns + 1)]! - 2 * data[near * columns + far]!;
    return { slope: (mean[far]! - mean[near]!) / PLUMB_RUN, u: Math.sqrt(variance) / PLUMB_RUN };
  };
  const [right, up] = [axis(0), axis(1)];
  return { right: right.slope, up: up.slope, u: { right: right.u, up: up.u } };
}
