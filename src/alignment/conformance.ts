/**
 * Whether a station meets its limits, and how sure that is (conformance probability, JCGM 106).
 *
 * A requirement's `value` is what the tapes say (JCGM 100); the probabilities come from the joint distribution of
 * the marks at all the places that the requirement is about, read or not: right, up, right, up … in mm, and last,
 * where plumb has a limit, the beam's slope from two tapes along the beam.
 */
import { chiSquareQuantile, discProbability, gaussianProbability, type Matrix } from '../statistics/index.ts';
import type { Requirement, StationLimits } from '../model/index.ts';
import { predict, type Estimate, type Prediction } from './estimate.ts';
import type { Moved } from './moved.ts';
import { NOT_MOVED } from './moved.ts';
import { placesNeeded, placesOf, queryAt, sameCarriages, type Place } from './places.ts';
import { isMark, points, type Mark } from './points.ts';
import { plumbOf } from './slope.ts';
import type { Taken } from './state.ts';
import type { Station } from './system.ts';

/** What is asked of one station: its places and its limits (mm, plumb in rad). */
export interface Demand {
  readonly station: Station;
  readonly limits: StationLimits;
  readonly places: readonly Place[];
}

/** Every place a carriage is sent to, and those that were shot besides. */
export function demand(station: Station, limits: StationLimits, readings: readonly Taken[] = []): Demand {
  const places = [...placesOf(station)];
  for (const { at, with: others, carriages, height } of readings) {
    if (height === 0 && !places.some((place) => sameCarriages(place.carriages, carriages))) places.push({ at, with: others, carriages });
  }
  return { station, limits, places: withinReason(places, station, readings) };
}

/** More places than this (a draw has 64 dimensions) no limit is weighed at: first the ends, then the farthest marks. */
const MOST_PLACES = 24;

function withinReason(places: readonly Place[], station: Station, readings: readonly Taken[]): readonly Place[] {
  if (places.length <= MOST_PLACES) return places;
  const needed = placesNeeded(station);
  const rank = (place: Place) => {
    if (needed.some((corner) => sameCarriages(corner.carriages, place.carriages))) return Infinity;
    const here = readings.filter((reading) => sameCarriages(reading.carriages, place.carriages));
    return Math.max(-1, ...here.map(({ right = 0, up = 0 }) => Math.hypot(right, up)));
  };
  return places.toSorted((one, other) => rank(other) - rank(one)).slice(0, MOST_PLACES);
}

/** mm between the two tapes that give the beam's slope. */
export const PLUMB_RUN = 100;

export function demandQueries({ station, limits, places }: Demand) {
  const own = places.map((place) => queryAt(station, place.carriages));
  const at = places[0]?.carriages ?? {};
  return limits.plumb === undefined ? own : [...own, queryAt(station, at, 0), queryAt(station, at, PLUMB_RUN)];
}

/** The three measures on one vector of marks; each undefined where it has no limit. */
export interface Measures {
  readonly centre?: number;
  readonly spread?: number;
  readonly plumb?: number;
}

export function measures({ limits, places }: Demand, marks: Float64Array): Measures {
  const count = places.length;
  const tail = 2 * count;
  return {
    ...(limits.centre !== undefined && { centre: farthest(marks, count) }),
    ...(limits.spread !== undefined && { spread: widest(marks, count) }),
    ...(limits.plumb !== undefined && { plumb: Math.hypot(marks[tail + 2]! - marks[tail]!, marks[tail + 3]! - marks[tail + 1]!) / PLUMB_RUN }),
  };
}

function farthest(marks: Float64Array, count: number): number {
  let most = 0;
  for (let i = 0; i < count; i++) most = Math.max(most, Math.hypot(marks[2 * i]!, marks[2 * i + 1]!));
  return most;
}

function widest(marks: Float64Array, count: number): number {
  let most = 0;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < i; j++) most = Math.max(most, Math.hypot(marks[2 * i]! - marks[2 * j]!, marks[2 * i + 1]! - marks[2 * j + 1]!));
  }
  return most;
}

/** Joint over all requirements, and each by itself. */
export interface Probabilities {
  readonly joint: number;
  readonly centre: number;
  readonly spread: number;
  readonly plumb: number;
}

/** @param draws standard normal vectors of a dimension (`Estimate.draws`) */
export function probabilities(asked: Demand, { mean, covariance }: Prediction, draws: Estimate['draws']): Probabilities {
  const { limits, places } = asked;
  // One mark against one circle has a formula; draws are for what has none.
  if (places.length === 1 && limits.centre !== undefined && limits.plumb === undefined) {
    const centre = inDisc(mean, covariance, limits.centre);
    return { joint: centre, centre, spread: 1, plumb: 1 };
  }
  const plain = plainly(asked, mean, covariance);
  if (plain.centre !== undefined && plain.spread !== undefined && plain.plumb !== undefined) {
    return { joint: Math.min(plain.centre, plain.spread, plain.plumb), centre: plain.centre, spread: plain.spread, plumb: plain.plumb };
  }
  const sample = draws(mean.length);
  const inside = { centre: 0, spread: 0, plumb: 0 };
  const joint = gaussianProbability(mean, covariance, (marks) => {
    const found = measures(asked, marks);
    const ok = (limit: keyof Measures) => (found[limit] ?? 0) <= (limits[limit] ?? Infinity);
    const [centred, narrow, plumb] = [ok('centre'), ok('spread'), ok('plumb')];
    inside.centre += Number(centred);
    inside.spread += Number(narrow);
    inside.plumb += Number(plumb);
    return centred && narrow && plumb;
  }, sample) ?? 0;
  return { joint, centre: inside.centre / sample.rows, spread: inside.spread / sample.rows, plumb: inside.plumb / sample.rows };
}

/** So many standard deviations from its limit a distance needs no draws: less than one chance in a million. */
const PLAIN = 5;

/** Requirements that are surely met (1) or surely not (0); undefined where that takes a closer look. */
function plainly({ limits, places }: Demand, mean: Float64Array, covariance: Matrix): { readonly [limit in keyof Measures]: 0 | 1 | undefined } {
  const marks = places.map((_, k) => ({ one: k }));
  const pairs = marks.flatMap(({ one }) => marks.slice(0, one).map(({ one: other }) => ({ one, other })));
  const answer = (limit: number | undefined, distances: readonly Distance[]) => {
    if (limit === undefined) return 1;
    const margins = distances.map(({ value, u }) => (limit - value) / Math.max(u, Number.MIN_VALUE));
    if (margins.some((margin) => margin < -PLAIN)) return 0;
    return margins.every((margin) => margin > PLAIN) ? 1 : undefined;
  };
  const plumb = { one: places.length + 1, other: places.length };
  return {
    centre: answer(limits.centre, marks.map((mark) => distanceOf(mark, mean, covariance))),
    spread: answer(limits.spread, pairs.map((pair) => distanceOf(pair, mean, covariance))),
    plumb: answer(limits.plumb && limits.plumb * PLUMB_RUN, limits.plumb === undefined ? [] : [distanceOf(plumb, mean, covariance)]),
  };
}

interface Distance {
  readonly value: number;
  /** An upper bound of its standard deviation in any direction. */
  readonly u: number;
}

/** Between two marks, or of one from the middle; mm. */
function distanceOf({ one, other }: { readonly one: number; readonly other?: number }, mean: Float64Array, { data, columns }: Matrix): Distance {
  const axes = [0, 1].map((axis) => {
    const i = 2 * one + axis;
    if (other === undefined) return { part: mean[i]!, variance: data[i * columns + i]! };
    const k = 2 * other + axis;
    return { part: mean[i]! - mean[k]!, variance: data[i * columns + i]! + data[k * columns + k]! - 2 * data[i * columns + k]! };
  });
  const [right, up] = [axes[0]!, axes[1]!];
  return { value: Math.hypot(right.part, up.part), u: Math.sqrt(Math.max(0, right.variance + up.variance)) };
}

function inDisc(mean: Float64Array, { data, columns }: Matrix, radius: number): number {
  return discProbability([mean[0]!, mean[1]!], [data[0]!, data[1]!, data[columns + 1]!], radius);
}

/** A station's requirements as its fresh readings leave them. */
export interface Conformance {
  readonly requirements: readonly Requirement[];
  readonly probability: number;
  /** Whether every value is inside its limit, whatever its uncertainty. */
  readonly inside: boolean;
}

export function conformance(asked: Demand, readings: readonly Taken[], estimate: Estimate): Conformance | undefined {
  const predicted = predict(estimate, demandQueries(asked), NOT_MOVED);
  if (!predicted) return undefined;
  const marks = points(readings).filter(isMark).filter((mark) => asked.places.some((place) => sameCarriages(place.carriages, mark.carriages)));
  const believed = trusted(asked, predicted, marks);
  const found = probabilities(asked, believed, estimate.draws);
  const requirements = [centre(asked, believed, marks), spread(asked, believed, marks), plumb(asked, readings)]
    .flatMap((requirement) => requirement ?? [])
    .map((requirement) => ({ ...requirement, probability: found[requirement.limit] }));
  return { requirements, probability: found.joint, inside: requirements.every(({ value, max }) => value === undefined || value <= max) };
}

/** Past this probability of chance the readings and the model disagree, and the readings are believed. */
const DISAGREEMENT = 0.999;

/**
 * The model's marks, with the readings themselves where they were taken. Where both disagree by more than chance (a
 * bowed rail, a mistake in the log) the model's covariance grows by the ratio of chi-square to its expectation.
 */
function trusted({ station, places }: Demand, { mean, covariance }: Prediction, marks: readonly Mark[]): Prediction {
  const misfits = marks.flatMap((mark) => {
    const i = 2 * places.findIndex((place) => sameCarriages(place.carriages, mark.carriages));
    return [(mark.right - mean[i]!) / mark.u, (mark.up - mean[i + 1]!) / mark.u];
  });
  const chiSquare = misfits.reduce((sum, misfit) => sum + misfit ** 2, 0);
  // Tilt of the mirror before and offset of the aperture take up two marks; the tube's offset takes up one.
  const freedom = Math.max(1, misfits.length - (station.index === 0 ? 2 : 4));
  if (chiSquare <= chiSquareQuantile(DISAGREEMENT, freedom)) return { mean, covariance };
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

function plumb({ limits: { plumb: max } }: Demand, readings: readonly Taken[]): Found | undefined {
  if (max === undefined) return undefined;
  const slope = plumbOf(readings);
  if (!slope) return { limit: 'plumb', max };
  const value = Math.hypot(slope.right, slope.up);
  // Along the slope's own direction (JCGM 100, 5.1.2); where it is nil both axes count alike.
  const u = value > 0 ? Math.hypot(slope.right * slope.u.right, slope.up * slope.u.up) / value : Math.hypot(slope.u.right, slope.u.up) / Math.SQRT2;
  return { limit: 'plumb', value, u, max };
}

/** The joint probability after a further move; 0 where the beam would miss a tape's plane. */
export function probabilityAfter(asked: Demand, estimate: Estimate, move: Moved): number {
  const predicted = predict(estimate, demandQueries(asked), move);
  return predicted ? probabilities(asked, predicted, estimate.draws).joint : 0;
}
