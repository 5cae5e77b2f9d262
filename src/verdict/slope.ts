/**
 * The slope at one station as a person would compute it: a straight line of mark against leg. Slopes in rad (mm per
 * mm), viewer's frame.
 */
import { varianceOfDifference } from '../statistics/index.ts';
import type { Slope } from '../model/index.ts';
import { grouped, NO_MOVE, carriagesAt, isMark, points, queryAt, type Station, type Mark } from '../machine/index.ts';
import { predict, lineThrough, plumbFrom, type Estimate, type LoggedReading } from '../estimate/index.ts';

/** Along the station's own travel; without one, along the beam from tapes at two heights. */
export function slopeOf(station: Station, readings: readonly LoggedReading[], estimate: Estimate): Slope | undefined {
  if (!station.own) return plumbFrom(readings);
  const rows = rowsAlong(station, points(readings).filter(isMark));
  const longest = rows.find((row) => legs(row, station).size > 1);
  return longest
    ? lineThrough(longest.map((mark) => [mark.carriages[station.name]!, mark]))
    : modelSlope(station, readings, estimate);
}

/** Marks that differ only in the station's own leg, the longest row first. */
function rowsAlong(station: Station, marks: readonly Mark[]): Mark[][] {
  const others = (mark: Mark) =>
    JSON.stringify(
      station.travels.filter((travel) => travel !== station.own).map((travel) => mark.carriages[travel.element]),
    );
  return grouped(marks, others).sort((one, other) => legs(other, station).size - legs(one, station).size);
}

function legs(row: readonly Mark[], station: Station): Set<number> {
  return new Set(row.map((mark) => mark.carriages[station.name]!));
}

/**
 * The slope by the model: two opposite corners alone cannot separate the two travels, but the rest of the machine can.
 */
function modelSlope(station: Station, readings: readonly LoggedReading[], estimate: Estimate): Slope | undefined {
  const { own } = station;
  if (!own || own.longest === own.shortest || points(readings).filter(isMark).length < 2) return undefined;
  const ends = [own.shortest, own.longest].map((leg) => queryAt(station, carriagesAt(station, { [own.element]: leg })));
  const predicted = predict(estimate, ends, NO_MOVE);
  if (!predicted) return undefined;
  const { mean: at, covariance } = predicted;
  const run = own.longest - own.shortest;
  const axis = (i: number) => ({
    slope: (at[i + 2]! - at[i]!) / run,
    u: Math.sqrt(varianceOfDifference(covariance, i, i + 2)) / run,
  });
  const [right, up] = [axis(0), axis(1)];
  return { right: right.slope, up: up.slope, u: { right: right.u, up: up.u } };
}
