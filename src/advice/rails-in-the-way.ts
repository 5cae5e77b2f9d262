/** Whether a rail or the gantry keeps a station outside its limits, and the place that shows it. */
import { predict, type Estimate } from '../estimate/index.ts';
import { NO_MOVE, queryAt, type Place } from '../machine/index.ts';
import { PROBABILITY, planFor, chanceAfter, predictedDemands, type Limited, type Work } from '../plan/index.ts';
import { straightened } from '../verdict/index.ts';
import { railsInWords } from './rails-words.ts';

/**
 * The error that no screw corrects, in words; undefined if the marks show none, or if straight rails would not bring
 * the station within either.
 */
export function railsInTheWay(estimate: Estimate, job: Work): string | undefined {
  const reason = railsInWords(estimate, job.target.station);
  if (reason === undefined) return undefined;
  const straight = straightened(estimate);
  if (chanceAfter(straight, predictedDemands(straight, job), NO_MOVE) >= PROBABILITY.even) return reason;
  const best = planFor(straight, job);
  return best && (best.worst <= 1 || best.probability >= PROBABILITY.even) ? reason : undefined;
}

/** The place whose mark the rails displace most. */
export function placeOfRails(estimate: Estimate, { demand: { station, places } }: Limited): Place | undefined {
  const straight = straightened(estimate);
  const offs = places.flatMap((place) => {
    const [is, would] = [estimate, straight].map(
      (one) => predict(one, [queryAt(station, place.carriages)], NO_MOVE)?.mean,
    );
    return is && would ? [{ place, off: Math.hypot(is[0]! - would[0]!, is[1]! - would[1]!) }] : [];
  });
  return offs.reduce<(typeof offs)[number] | undefined>(
    (most, one) => (most && most.off >= one.off ? most : one),
    undefined,
  )?.place;
}
