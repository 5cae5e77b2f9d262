/** The marks of a round: one for each place of the carriages, and the largest distances. */
import { points } from '../machine/index.ts';
import type { Measured, LogEntry, CarriagePlace, StationMarks, StationReport } from '../model/index.ts';
import type { VisitMark, DatedRound } from './visited-stations.ts';

export function stationMarks(
  { report, index, marks: byPlace, date }: DatedRound,
  entries: readonly LogEntry[],
): StationMarks {
  const marks = [...byPlace.values()];
  const centre = farthest(marks);
  const spread = widest(marks);
  const lean = leanIn(report);
  return {
    ...(date !== undefined && { date }),
    cell: entries[index]!.cell,
    state: report.state,
    ...(report.probability !== undefined && { probability: report.probability }),
    ...(centre && { centre: { value: fromMiddle(centre), u: centre.u, ...placeOf(centre) } }),
    ...(spread && { spread }),
    ...(lean && { lean }),
    missed: points(report.readings).filter(({ none }) => none).length,
  };
}

/** From tapes on the bed, mrad; the report has rad. */
function leanIn({ requirements, readings }: StationReport): Measured | undefined {
  if (!readings.some(({ height }) => height > 0)) return undefined;
  const plumb = requirements.find(({ limit }) => limit === 'plumb');
  return plumb?.value === undefined || plumb.u === undefined
    ? undefined
    : { value: 1000 * plumb.value, u: 1000 * plumb.u };
}

export function placeOf({ first: { at, with: others } }: VisitMark): CarriagePlace {
  return { at, with: others };
}

export function fromMiddle({ right, up }: VisitMark): number {
  return Math.hypot(right, up);
}

export function farthest(marks: readonly VisitMark[]): VisitMark | undefined {
  return marks.reduce<VisitMark | undefined>(
    (most, mark) => (most && fromMiddle(most) >= fromMiddle(mark) ? most : mark),
    undefined,
  );
}

function widest(marks: readonly VisitMark[]): Measured | undefined {
  const pairs = marks.flatMap((one, k) =>
    marks.slice(0, k).map((other) => ({
      value: Math.hypot(one.right - other.right, one.up - other.up),
      u: Math.hypot(one.u, other.u),
    })),
  );
  return pairs.reduce<Measured | undefined>(
    (most, pair) => (most && most.value >= pair.value ? most : pair),
    undefined,
  );
}
