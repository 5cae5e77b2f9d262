/** A limit finer than one reading can show: even a mark exactly in the centre would not prove it. */
import { findingAt, pathTo, type Finding, type Limits, type LogEntry, type StationLimits } from '../model/index.ts';

/** Number of shots of every place that nobody makes. */
const TOO_MANY = 3;

export function fineLimits(logged: LogEntry): Finding[] {
  const { entry } = logged;
  if (entry.kind !== 'limits') return [];
  return Object.entries(entry.limits.stations).flatMap(([name, limits]) =>
    (['centre', 'spread'] as const).flatMap((limit): Finding[] => {
      const shots = shotsToShow(limits, limit, entry.limits);
      return shots >= TOO_MANY
        ? [
            findingAt(logged, pathTo('stations', name, limit), 'limits.fine', {
              limit,
              shots: String(shots),
              confidence: String(Math.round(100 * entry.limits.confidence)),
            }),
          ]
        : [];
    }),
  );
}

/**
 * The smallest n with P(distance ≤ limit) at the confidence for a true distance of zero: for a mark it is 1 −
 * exp(−c²n/2u²) (Rayleigh), for the distance of two marks with twice the variance.
 */
function shotsToShow(
  limits: StationLimits,
  limit: 'centre' | 'spread',
  { reading: { resolution, placing }, confidence }: Limits,
): number {
  const max = limits[limit];
  if (max === undefined || max <= 0 || confidence >= 1) return 0;
  const variance = (resolution ** 2 / 12 + placing ** 2) * (limit === 'spread' ? 2 : 1);
  return Math.ceil((-2 * variance * Math.log(1 - confidence)) / max ** 2);
}
