/**
 * Every advised move improves the estimate of its station: the utilisation of its limit decreases, or its probability
 * of being within increases. Trial turns, which measure the effect of a screw, do not occur: the workbook gives the
 * place of every screw.
 *
 *     SEED=7 MACHINES=300 npm run test:simulation
 */
import { expect, test } from 'vitest';
import { demandQueries, measures, type Demand } from '../../src/verdict/demand.ts';
import { estimate, predict, type Estimate } from '../../src/estimate/estimate.ts';
import { fold } from '../../src/estimate/fold.ts';
import { NO_MOVE, TUBE, withShift, withTubeMove, withTurn, type Move } from '../../src/machine/move.ts';
import { probabilityAfter } from '../../src/verdict/probability.ts';
import { stationVerdicts } from '../../src/verdict/station-verdict.ts';
import type { Step } from '../../src/model/index.ts';
import { tubeShift } from '../../src/optics/index.ts';
import { limitsCell } from './limits.ts';
import { afterTransport, drawnPlan, ENGRAVERS } from './machines.ts';
import { random } from './random.ts';
import { work } from './technician.ts';
import { ordinary } from './workshop.ts';
import { reader } from '../support/log.ts';

const SEED = Number(process.env['SEED'] ?? 1);
const MACHINES = Number(process.env['MACHINES'] ?? 60);

test('no advice makes its station worse', () => {
  const draw = random(SEED);
  const worse: string[] = [];
  let moves = 0;
  for (let machine = 0; machine < MACHINES; machine++) {
    const plan = drawnPlan(draw, ENGRAVERS[machine % ENGRAVERS.length]!);
    work(plan, afterTransport(draw, plan, 1), limitsCell(), ordinary(random(machine + 1)), (text, evaluation) => {
      if (!movesIn(evaluation.steps)) return;
      moves++;
      const { demand, known } = targetOf(text);
      const move = moveIn(evaluation.steps, known);
      const [before, after] = [NO_MOVE, move].map((one) => ({
        share: maxUtilisation(demand, known, one),
        chance: probabilityAfter(demand, known, one),
      }));
      if (after!.share >= before!.share && after!.chance <= before!.chance)
        worse.push(`machine ${machine}, ${demand.station.name}: ${JSON.stringify({ before, after })}`);
    });
  }
  console.log(`seed ${SEED}: ${MACHINES} machines, ${moves} moves advised, ${worse.length} make their station worse`);
  expect(moves).toBeGreaterThan(2 * MACHINES);
  expect(worse).toEqual([]);
});

/** The moves before the next shot. */
function first(steps: readonly Step[]): readonly Step[] {
  const shot = steps.findIndex(({ kind }) => kind === 'shoot');
  return steps.slice(0, shot < 0 ? steps.length : shot);
}

function movesIn(steps: readonly Step[]): boolean {
  return first(steps).some(({ kind }) => kind === 'turn' || kind === 'shift');
}

function moveIn(steps: readonly Step[], { system }: Estimate): Move {
  return first(steps).reduce((move, step) => {
    if (step.kind === 'turn') return withTurn(move, step.part, step.screw, step.turns);
    if (step.kind !== 'shift') return move;
    return step.part === TUBE
      ? withTubeMove(move, { ...tubeShift(system.layout, step.by), turnRight: 0, turnUp: 0 })
      : withShift(move, step.part, step.by);
  }, NO_MOVE);
}

/** The first station that is not within. */
function targetOf(text: string): { demand: Demand; known: Estimate } {
  const { entries } = reader.read(text, {
    file: 'trial.alignbook.yaml',
    files: new Map(),
  });
  const state = fold(entries);
  const known = estimate(state)!;
  const target = stationVerdicts(state, known).find(({ demand, report }) => demand && report.state !== 'within')!;
  return { demand: target.demand!, known };
}

/** Utilisation of the station's limits at the most probable marks after the move. */
function maxUtilisation(demand: Demand, known: Estimate, move: Move): number {
  const predicted = predict(known, demandQueries(demand), move);
  if (!predicted) return Infinity;
  const result = measures(demand, predicted.mean);
  return Math.max(
    ...(['centre', 'spread', 'plumb'] as const).map(
      (limit) => (result[limit] ?? 0) / (demand.limits[limit] ?? Infinity),
    ),
  );
}
