/** A limit finer than one reading can show: even a mark in the very centre would not prove it. */
import { findingAt, type Finding, type Limits, type LogEntry, type StationLimits } from '../model/index.ts';

/** From this number of shots of every place on nobody shoots. */
const TOO_MANY = 3;

export function fineLimits(logged: LogEntry): Finding[] {
  const { entry } = logged;
  if (entry.kind !== 'limits') return [];
  return Object.entries(entry.limits.stations).flatMap(([name, limits]) =>
    (['centre', 'spread'] as const).flatMap((limit): Finding[] => {
      const shots = shotsToShow(limits, limit, entry.limits);
      return shots >= TOO_MANY
        ? [
            findingAt(logged, `stations/${name}/${limit}`, 'limits.fine', {
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
 * The smallest n with P(distance ≤ limit) at the confidence where the true distance is zero: a mark has 1 − exp(−c²n/2u²)
 * (Rayleigh), the distance of two marks twice the variance.
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
