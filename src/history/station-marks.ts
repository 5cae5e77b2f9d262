/** The marks of a round as a person sees them: one a place of the carriages, and the largest distances. */
import { points } from '../machine/index.ts';
import type { Measured, LogEntry, CarriagePlace, StationMarks, StationReport } from '../model/index.ts';
import type { SeenMark, SeenRound } from './seen.ts';

export function stationMarks(
  { report, index, marks: byPlace, date }: SeenRound,
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
    ...(centre && { centre: { value: fromMiddle(centre), u: centre.u, ...spotOf(centre) } }),
    ...(spread && { spread }),
    ...(lean && { lean }),
    missed: points(report.readings).filter(({ none }) => none).length,
  };
}

/** As tapes on the bed told it; the report has it in rad. */
function leanIn({ requirements, readings }: StationReport): Measured | undefined {
  if (!readings.some(({ height }) => height > 0)) return undefined;
  const plumb = requirements.find(({ limit }) => limit === 'plumb');
  return plumb?.value === undefined || plumb.u === undefined
    ? undefined
    : { value: 1000 * plumb.value, u: 1000 * plumb.u };
}

export function spotOf({ first: { at, with: others } }: SeenMark): CarriagePlace {
  return { at, with: others };
}

export function fromMiddle({ right, up }: SeenMark): number {
  return Math.hypot(right, up);
}

export function farthest(marks: readonly SeenMark[]): SeenMark | undefined {
  return marks.reduce<SeenMark | undefined>(
    (most, mark) => (most && fromMiddle(most) >= fromMiddle(mark) ? most : mark),
    undefined,
  );
}

function widest(marks: readonly SeenMark[]): Measured | undefined {
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
