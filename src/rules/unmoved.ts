/** A turn of an eighth or more after which every mark is where it was. */
import { findingAt, pathTo, type Finding } from '../model/index.ts';
import { runFilter } from '../estimate/index.ts';
import { screwInWords, listed } from '../words/index.ts';
import type { Outcome } from './rule.ts';

export function unmoved({ state, entries, estimate }: Outcome): Finding[] {
  const contradictions = state.segment ? runFilter(state.segment).contradictions : [];
  return contradictions.flatMap(({ unmoved: turns, moment, station }): Finding[] => {
    const logged = entries[moment.order];
    if (!turns || !logged) return [];
    return [
      findingAt(logged, pathTo('marks'), 'log.unmoved', {
        station,
        screws: listed(turns.map(({ part, screw }) => `${screwInWords(estimate.system, part, screw)} of ${part}`)),
      }),
    ];
  });
}
