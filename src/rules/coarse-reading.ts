/** Marks that scatter everywhere by more than the declared reading: reading is worse than the limits cell declares. */
import { findingAt, lengthsIn, pathTo, type Finding } from '../model/index.ts';
import { doubts, READING } from '../estimate/index.ts';
import { fires, type Outcome } from './rule.ts';

export function coarseReading({ state, entries, estimate }: Outcome): Finding[] {
  const { noise } = doubts(state);
  const last = noise > 1 ? entries.findLast(fires) : undefined;
  if (!last) return [];
  const { resolution, placing } = state.limits?.reading ?? READING;
  const declared = Math.sqrt(resolution ** 2 / 12 + placing ** 2);
  const { given } = lengthsIn(estimate.system.machine.units);
  return [
    findingAt(last, pathTo('marks'), 'log.reading', {
      factor: String(noise),
      declared: given(declared),
      used: given(noise * declared),
    }),
  ];
}
