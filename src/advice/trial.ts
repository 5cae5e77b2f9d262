/**
 * One small trial turn shows the effect of a screw if it is unknown: the next screw that has not been tried, on the
 * mirror nearest before the station.
 */
import type { Step } from '../model/index.ts';
import { demandQueries, measures, type Demand, type StationVerdict } from '../verdict/index.ts';
import { predict, type Estimate, type State } from '../estimate/index.ts';
import {
  NO_MOVE,
  screwKey,
  withTurn,
  isMark,
  points,
  type Move,
  type Mark,
  type ScrewPlace,
  type System,
} from '../machine/index.ts';
import { varianceAt } from '../statistics/index.ts';
import { turnAdjuster, UTILISATION } from '../plan/index.ts';
import { stepsOf } from './steps.ts';

/**
 * Turns: enough above reading noise to compute the next turn, and a little more if the mark is far off; a smaller turn
 * would be made twice, and show less.
 */
const TRIAL = 3 / 16;
const LARGE_TRIAL = 1 / 4;
/** Turns after which a screw without effect is abandoned: it is seized, or slips. */
const ENOUGH = 1;
/** Coverage factor from which on the effect of a screw is known. */
const KNOWN = 2;

/**
 * @param planned whether there is a plan too, a doubtful one: then nothing is tried on a mirror that known screws can
 * tilt in every direction
 */
export function trial(
  state: State,
  estimate: Estimate,
  target: StationVerdict,
  planned: boolean,
): { readonly steps: readonly Step[]; readonly move: Move } | undefined {
  const { system } = estimate;
  const mirror = system.mirrors.filter((candidate) => candidate < target.station.index).at(-1);
  const tried = ({ part, screw: name }: ScrewPlace) => state.turned.get(screwKey(part, name)) ?? 0;
  const screw = system.screws.find(
    (candidate) => candidate.mirror === mirror && !isKnown(estimate, candidate) && tried(candidate) < ENOUGH,
  );
  if (!screw || (planned && isSteered(estimate, screw.mirror))) return undefined;
  const way = direction(estimate, screw, target);
  const turns =
    (farOut(target) ? LARGE_TRIAL : TRIAL) * (estimate.hands.canTurn(screw.part, screw.screw, way) ? way : -way);
  const why = `The places of the screws of ${screw.part} are not in the workbook. Make a small trial turn: the next marks on ${target.report.name} show what screw ${screw.screw} does.`;
  const steps = stepsOf(state, system, [turnAdjuster(estimate.hands, screw)], [turns], why).map(
    (step): Step => (step.kind === 'turn' ? { ...step, isTrial: true } : step),
  );
  return { steps, move: withTurn(NO_MOVE, screw.part, screw.screw, turns) };
}

/** Sine of the angle between the effects of two screws from which on they can tilt a mirror in every direction. */
const INDEPENDENT = 0.5;

/** A third screw would add nothing. */
function isSteered(estimate: Estimate, mirror: number): boolean {
  const {
    system,
    distribution: { values },
  } = estimate;
  const effects = system.screws
    .filter((screw) => screw.mirror === mirror && isKnown(estimate, screw))
    .map((screw) => {
      const gain = gainOf(system, screw);
      return { right: values[gain]!, up: values[gain + 1]! };
    });
  return effects.some((one, k) =>
    effects
      .slice(0, k)
      .some(
        (other) =>
          Math.abs(one.right * other.up - one.up * other.right) >=
          INDEPENDENT * Math.hypot(one.right, one.up) * Math.hypot(other.right, other.up),
      ),
  );
}

/** Whether the effect of a screw is known: its place is in the workbook, or its estimate is significant. */
export function isKnown({ system, distribution: { values, covariance } }: Estimate, screw: ScrewPlace): boolean {
  if (screw.effect) return true;
  const index = gainOf(system, screw);
  const variance = (at: number) => varianceAt(covariance, at);
  return (
    Math.hypot(values[index]!, values[index + 1]!) > KNOWN * Math.sqrt(Math.max(variance(index), variance(index + 1)))
  );
}

function gainOf({ unknowns, screws }: System, screw: ScrewPlace): number {
  return unknowns.gain(screws.indexOf(screw));
}

function farOut(target: StationVerdict): boolean {
  const mark = farthest(target);
  return mark !== undefined && fromMiddle(mark) > target.station.element.aperture / 4;
}

/**
 * In, or in the direction of its last turn, unless by the present estimate the other direction leaves a smaller
 * utilisation.
 */
function direction(estimate: Estimate, { part, screw }: ScrewPlace, { demand }: StationVerdict): 1 | -1 {
  const before = estimate.distribution.senses.get(screwKey(part, screw));
  const way = before === undefined || before > 0 ? 1 : -1;
  const utilisationAfter = (turns: number) => worst(estimate, demand, withTurn(NO_MOVE, part, screw, turns));
  const other =
    utilisationAfter(-way * TRIAL) <
    utilisationAfter(way * TRIAL) - (before === undefined ? UTILISATION.same : UTILISATION.clear);
  return other ? (way === 1 ? -1 : 1) : way;
}

/** The largest utilisation of a limit after a move, by the most probable marks. */
function worst(estimate: Estimate, demand: Demand | undefined, move: Move): number {
  const predicted = demand && predict(estimate, demandQueries(demand), move);
  if (!predicted) return Infinity;
  const measured = measures(demand, predicted.mean);
  return Math.max(
    ...(['centre', 'spread', 'plumb'] as const).map(
      (limit) => (measured[limit] ?? 0) / (demand.limits[limit] ?? Infinity),
    ),
  );
}

function farthest({ fresh }: StationVerdict): Mark | undefined {
  return points(fresh)
    .filter(isMark)
    .reduce<Mark | undefined>((far, mark) => (far && fromMiddle(far) >= fromMiddle(mark) ? far : mark), undefined);
}

function fromMiddle({ right, up }: Mark): number {
  return Math.hypot(right, up);
}
