/**
 * How far the last marks of a station are from the centre, with or without limits; shots at one place count as one
 * mark.
 */
import { isMark, points } from '../../machine/index.ts';
import type { Amount, Requirement, StationReport } from '../../model/index.ts';

export interface OffCentre {
  /** The maximum distance of a mark from the centre, and between marks at two places, mm. */
  readonly centre?: Amount;
  readonly spread?: Amount;
  /**
   * Tapes that the beam missed: then the distance is unknown, and the other marks alone would look better than the
   * truth.
   */
  readonly missed: number;
}

/** The distances of a station's last marks from the centre and from each other. */
export function offCentre(report: StationReport): OffCentre {
  const own = report.readings.filter(({ height }) => height === 0);
  const missed = own.filter(({ none }) => none).length;
  if (missed > 0) return { missed };
  const marks = points(own).filter(isMark);
  const centre =
    required(report, 'centre') ?? most(marks.map(({ right, up, u }) => ({ value: Math.hypot(right, up), u })));
  const spread =
    required(report, 'spread') ??
    most(
      marks.flatMap((one, k) =>
        marks.slice(0, k).map((other) => ({
          value: Math.hypot(one.right - other.right, one.up - other.up),
          u: Math.hypot(one.u, other.u),
        })),
      ),
    );
  return { missed, ...(centre && { centre }), ...(spread && { spread }) };
}

/** The value of the requirement, if the station has this limit. */
export function required({ requirements }: StationReport, limit: Requirement['limit']): Amount | undefined {
  const { value, u } = requirements.find((one) => one.limit === limit) ?? {};
  return value === undefined || u === undefined ? undefined : { value, u };
}

function most(amounts: readonly Amount[]): Amount | undefined {
  return amounts.reduce<Amount | undefined>(
    (largest, one) => (largest && largest.value >= one.value ? largest : one),
    undefined,
  );
}
