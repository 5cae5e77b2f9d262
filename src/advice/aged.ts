/**
 * A station that was within when it was last shot may not be so today: its marks drift with the days. States the drift
 * in mm (one standard uncertainty), with its source.
 */
import { dayOf, lengthsIn, PRIORS } from '../model/index.ts';
import { driftRate, estimate, driftCovariance, allIntervals, type DriftRate, type State } from '../estimate/index.ts';
import { stationVerdict, type StationVerdict } from '../verdict/index.ts';

/** Undefined if it is within, or was not when the days began. */
export function agedInWords(
  state: State,
  { report: { name, state: now }, station, fresh }: StationVerdict,
): string | undefined {
  const then = state.carriedOn?.from;
  const before = then && estimate(then);
  if (!state.carriedOn || !then || !before || now === 'within' || fresh.length === 0) return undefined;
  if (stationVerdict(then, station, before).report.state !== 'within') return undefined;
  const { days } = state.carriedOn;
  const rate = driftRate(before.system.machine, allIntervals(then));
  const variances = driftCovariance(
    then,
    name,
    fresh.map(({ carriages }) => carriages),
    rate.variance,
  );
  const most = Math.sqrt(
    days * Math.max(0, ...(variances ? variances.data.filter((_, k) => k % (variances.columns + 1) === 0) : [])),
  );
  const drift = `${drifts(rate) ? 'The machine drifts: since then' : 'Since then'} the marks may have moved by ± ${lengthsIn(station.units).doubt(most)} without any adjustment (${basisInWords(rate)})`;
  return `${name} was last within on ${dayOf(then.noiseDate!)}${releaseInWords(then)}; after ${days} ${days === 1 ? 'day' : 'days'} those marks no longer prove it. ${drift}. Shoot ${name} again.`;
}

function releaseInWords({ released, signer }: State): string {
  if (released !== 'in service') return '';
  return signer === undefined ? ' (released)' : ` (released by ${signer})`;
}

/** Faster than assumed by a factor of two: more than chance. */
function drifts({ from, variance }: DriftRate): boolean {
  return from === 'learnt' && variance > (2 * PRIORS.driftTilt.value) ** 2;
}

function basisInWords({ from, visits, days }: DriftRate): string {
  switch (from) {
    case 'written':
      return 'from `driftTilt` in the machine cell';
    case 'assumed':
      return 'assumed by common practice: the log has no two visits to compare';
    case 'learnt':
      return `estimated from ${visits} ${visits === 1 ? 'interval' : 'intervals'}, ${days} days in total: see \`alignbook sessions\``;
  }
}
