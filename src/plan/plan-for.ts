/** The plan for the station that is being aligned. */
import { demandQueries } from '../verdict/index.ts';
import { predict, type Estimate } from '../estimate/index.ts';
import { NO_MOVE } from '../machine/index.ts';
import { plan, type Among, type Plan } from './plan.ts';
import { predictedDemands, MOST_STATIONS, type Work } from './work.ts';

/** The move is chosen by the places where the mark is predicted well enough; unknown places do not influence it. */
export function planFor(estimate: Estimate, job: Work, among: Among = 'everything'): Plan | undefined {
  const demands = predictedDemands(estimate, job);
  return plan(
    estimate,
    demands.at(-1)!,
    demands.slice(0, -1),
    job.after
      .slice(-MOST_STATIONS)
      .map(({ demand }) => demand)
      .filter((demand) => predict(estimate, demandQueries(demand), NO_MOVE) !== undefined),
    among,
  );
}
