/** The plan for the station that is worked. */
import { demandQueries } from '../verdict/index.ts';
import { predict, type Estimate } from '../estimate/index.ts';
import { NO_MOVE } from '../machine/index.ts';
import { plan, type Among, type Plan } from './plan.ts';
import { demandsKnown, MOST_STATIONS, type Work } from './work.ts';

/** A move is chosen by the places of which the marks say where the beam lands; what is known of no place decides nothing. */
export function planned(estimate: Estimate, job: Work, among: Among = 'everything'): Plan | undefined {
  const known = demandsKnown(estimate, job);
  return plan(
    estimate,
    known.at(-1)!,
    known.slice(0, -1),
    job.after
      .slice(-MOST_STATIONS)
      .map(({ asked }) => asked)
      .filter((asked) => predict(estimate, demandQueries(asked), NO_MOVE) !== undefined),
    among,
  );
}
