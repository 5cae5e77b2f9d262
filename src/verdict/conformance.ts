/**
 * Whether a station meets its limits, and with which probability. A requirement's `value` is the plain reading: the
 * station's own marks alone, at each place the mean of its newest cell's (JCGM 100); without one, the model's. Its
 * probability comes from the joint distribution of the marks at all places that it applies to, read or not (JCGM 106).
 * If the plain reading exceeds the limit by more than its uncertainty, the probability is at most the reading's own.
 */
import { chiSquareUpper, riceCdf, variance, varianceOfDifference } from '../statistics/index.ts';
import type { Requirement, Slope } from '../model/index.ts';
import { demandQueries, PLUMB_RUN, type Demand } from './demand.ts';
import { NO_MOVE, sameCarriages, isMark, points, type Place, type Mark } from '../machine/index.ts';
import { predict, plumbFrom, type Estimate, type Prediction, type LoggedReading } from '../estimate/index.ts';
import { probabilities } from './probability.ts';

/** The conformance of a station by its fresh readings. */
export interface Conformance {
  readonly requirements: readonly Requirement[];
  readonly probability: number;
  /** Whether no plain reading exceeds its limit by more than its uncertainty, and the probability is not negligible. */
  readonly inside: boolean;
  /** Places whose plain reading contradicts the model: they are shot again. */
  readonly contradicted: readonly Place[];
}

/**
 * Undefined where the beam misses a tape by the model.
 * @param noise factor on the declared uncertainty of reading
 */
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

/** Below this conformance probability a station is outside, even if the failing places were not shot. */
const SURELY_OUTSIDE = 0.01;

/** The mean of the marks of the newest cell at each place. */
function newestMarks({ places }: Demand, readings: readonly LoggedReading[]): Mark[] {
  return places.flatMap((place) => {
    const placeReadings = readings.filter(
      (reading) => reading.height === 0 && sameCarriages(reading.carriages, place.carriages),
    );
    const last = Math.max(...placeReadings.map(({ order }) => order));
    return points(placeReadings.filter(({ order }) => order === last)).filter(isMark);
  });
}

/** p-value below which readings and model disagree, and the readings are used. */
const MISFIT_PROBABILITY = 0.001;

/**
 * The model's marks. If they disagree with the readings by more than chance (a mistake in the log, two shots of one
 * place that differ), the readings replace them, and the covariance is multiplied by the squared Birge ratio:
 * chi-square over its degrees of freedom.
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
  // The tilt of the mirror before and the offset of the aperture use four degrees of freedom; the offset of the tube
  // uses two.
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
  /** Places of the largest plain reading. */
  readonly places: readonly Place[];
  /** The plain reading's own probability, if it exceeds the limit by more than its uncertainty. */
  readonly own?: number;
};

/** The mark at one place, mm, and the standard uncertainty of either coordinate. */
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
  return places.map((place, i) => ({
    place,
    right: mean[2 * i]!,
    up: mean[2 * i + 1]!,
    u: Math.sqrt((variance(covariance, 2 * i) + variance(covariance, 2 * i + 1)) / 2),
  }));
}

/**
 * The probability that a distance, with standard uncertainty `u` of each coordinate, is at most `max`; only if it
 * exceeds the limit by more than `u`.
 */
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
  all.forEach((mark, i) =>
    all.slice(0, i).forEach((other) => {
      const value = Math.hypot(mark.right - other.right, mark.up - other.up);
      if (value >= worst.value) worst = { value, u: Math.hypot(mark.u, other.u), places: [other.place, mark.place] };
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
  // Along the slope's own direction (JCGM 100, 5.1.2); if it is zero, both axes count equally.
  const u =
    value > 0
      ? Math.hypot(slope.right * slope.u.right, slope.up * slope.u.up) / value
      : Math.hypot(slope.u.right, slope.u.up) / Math.SQRT2;
  return { limit: 'plumb', value, u, max, places: [], ...(read ? ownProbability(value, u, max) : { predicted: true }) };
}

/** The slope between the two tapes along the beam, which are last among the marks. */
function plumbPredicted({ places }: Demand, { mean, covariance }: Prediction): Slope {
  const axis = (part: 0 | 1) => {
    const [near, far] = [2 * places.length + part, 2 * places.length + 2 + part] as const;
    return {
      slope: (mean[far]! - mean[near]!) / PLUMB_RUN,
      u: Math.sqrt(varianceOfDifference(covariance, near, far)) / PLUMB_RUN,
    };
  };
  const [right, up] = [axis(0), axis(1)];
  return { right: right.slope, up: up.slope, u: { right: right.u, up: up.u } };
}
