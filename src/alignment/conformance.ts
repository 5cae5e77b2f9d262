/**
 * Whether a station meets its limits, and how sure that is. A requirement's `value` is what the tapes say (JCGM 100);
 * its probability comes from the joint distribution of the marks at all the places that it is about, read or not.
 */
import { chiSquareUpper } from '../statistics/index.ts';
import type { Requirement, Slope } from '../model/index.ts';
import { demandQueries, measures, PLUMB_RUN, type Demand } from './demand.ts';
import { predict, type Estimate, type Prediction } from './estimate.ts';
import { NO_MOVE } from './move.ts';
import { sameCarriages, type Place } from './places.ts';
import { isMark, points, type Mark } from './points.ts';
import { probabilities } from './probability.ts';
import { plumbOf } from './slope.ts';
import type { Taken } from './state.ts';

/** A station's requirements as its fresh readings leave them. */
export interface Conformance {
  readonly requirements: readonly Requirement[];
  readonly probability: number;
  /** Whether the most probable marks are inside every limit, whatever their uncertainty. */
  readonly inside: boolean;
}

export function conformance(asked: Demand, readings: readonly Taken[], estimate: Estimate): Conformance | undefined {
  const predicted = predict(estimate, demandQueries(asked), NO_MOVE);
  if (!predicted) return undefined;
  const marks = points(readings).filter(isMark).filter((mark) => asked.places.some((place) => sameCarriages(place.carriages, mark.carriages)));
  const believed = trusted(asked, predicted, marks, readings);
  const found = probabilities(asked, believed);
  const requirements = [centre(asked, believed, marks), spread(asked, believed, marks), plumb(asked, believed, readings)]
    .flatMap((requirement) => requirement ?? [])
    .map((requirement) => ({ ...requirement, probability: found[requirement.limit] }));
  const { limits } = asked;
  const probably = measures(asked, believed.mean);
  const inside = (['centre', 'spread', 'plumb'] as const).every((limit) => (probably[limit] ?? 0) <= (limits[limit] ?? Infinity));
  return { requirements, probability: found.joint, inside };
}

/** Below this probability of mere chance the readings and the model disagree, and the readings are believed. */
const CHANCE = 0.001;

/**
 * The model's marks, with the readings themselves where they were taken. Where both disagree by more than chance (a
 * bowed rail, a mistake in the log, two shots of one place that differ) the model's covariance grows by the ratio of
 * chi-square to its expectation.
 */
function trusted({ station, places }: Demand, { mean, covariance }: Prediction, marks: readonly Mark[], readings: readonly Taken[]): Prediction {
  const misfits = readings.filter(({ height }) => height === 0).flatMap(({ carriages, right, up, u }) => {
    const i = 2 * places.findIndex((place) => sameCarriages(place.carriages, carriages));
    if (i < 0) return [];
    return [right === undefined ? [] : [(right - mean[i]!) / u], up === undefined ? [] : [(up - mean[i + 1]!) / u]].flat();
  });
  const chiSquare = misfits.reduce((sum, misfit) => sum + misfit ** 2, 0);
  // Tilt of the mirror before and offset of the aperture take up two marks; the tube's offset takes up one.
  const freedom = Math.max(1, misfits.length - (station.index === 0 ? 2 : 4));
  if (chiSquareUpper(chiSquare, freedom) >= CHANCE) return { mean, covariance };
  const read = Float64Array.from(mean);
  for (const mark of marks) {
    const i = 2 * places.findIndex((place) => sameCarriages(place.carriages, mark.carriages));
    read.set([mark.right, mark.up], i);
  }
  return { mean: read, covariance: { ...covariance, data: covariance.data.map((entry) => entry * (chiSquare / freedom)) } };
}

type Found = Omit<Requirement, 'probability'>;

/** One place's mark: as read, else as the model has it. `variance` of right, of up, and their covariance. */
interface Known { readonly place: Place; readonly right: number; readonly up: number; readonly u: number }

function known({ places }: Demand, { mean, covariance }: Prediction, marks: readonly Mark[]): Known[] {
  return places.map((place, i) => {
    const mark = marks.find((candidate) => sameCarriages(candidate.carriages, place.carriages));
    if (mark) return { place, right: mark.right, up: mark.up, u: mark.u };
    const variance = (index: number) => covariance.data[index * (covariance.columns + 1)]!;
    return { place, right: mean[2 * i]!, up: mean[2 * i + 1]!, u: Math.sqrt((variance(2 * i) + variance(2 * i + 1)) / 2) };
  });
}

function centre(asked: Demand, believed: Prediction, marks: readonly Mark[]): Found | undefined {
  const max = asked.limits.centre;
  if (max === undefined) return undefined;
  const all = known(asked, believed, marks).map((mark) => ({ ...mark, value: Math.hypot(mark.right, mark.up) }));
  const worst = all.reduce((most, mark) => (mark.value > most.value ? mark : most));
  return { limit: 'centre', ...placeNames(worst.place), value: worst.value, u: worst.u, max };
}

function placeNames(place: Place): Pick<Requirement, 'at' | 'with'> {
  return { at: place.at, ...(Object.keys(place.with).length > 0 && { with: place.with }) };
}

function spread(asked: Demand, believed: Prediction, marks: readonly Mark[]): Found | undefined {
  const max = asked.limits.spread;
  if (max === undefined) return undefined;
  const all = known(asked, believed, marks);
  let worst = { value: 0, u: 0 };
  all.forEach((one, i) => all.slice(0, i).forEach((other) => {
    const value = Math.hypot(one.right - other.right, one.up - other.up);
    if (value >= worst.value) worst = { value, u: Math.hypot(one.u, other.u) };
  }));
  return { limit: 'spread', ...worst, max };
}

function plumb(asked: Demand, believed: Prediction, readings: readonly Taken[]): Found | undefined {
  const max = asked.limits.plumb;
  if (max === undefined) return undefined;
  const slope = plumbOf(readings) ?? plumbBelieved(asked, believed);
  const value = Math.hypot(slope.right, slope.up);
  // Along the slope's own direction (JCGM 100, 5.1.2); where it is nil both axes count alike.
  const u = value > 0 ? Math.hypot(slope.right * slope.u.right, slope.up * slope.u.up) / value : Math.hypot(slope.u.right, slope.u.up) / Math.SQRT2;
  return { limit: 'plumb', value, u, max };
}

/** Between the two tapes along the beam that come last among the marks. */
function plumbBelieved({ places }: Demand, { mean, covariance: { data, columns } }: Prediction): Slope {
  const axis = (part: 0 | 1) => {
    const [near, far] = [2 * places.length + part, 2 * places.length + 2 + part] as const;
    const variance = data[near * (columns + 1)]! + data[far * (columns + 1)]! - 2 * data[near * columns + far]!;
    return { slope: (mean[far]! - mean[near]!) / PLUMB_RUN, u: Math.sqrt(variance) / PLUMB_RUN };
  };
  const [right, up] = [axis(0), axis(1)];
  return { right: right.slope, up: up.slope, u: { right: right.u, up: up.u } };
}
