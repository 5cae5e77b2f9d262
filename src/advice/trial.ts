/**
 * Where nobody knows what a screw does, one small turn tells: the next screw that has not been tried, on the mirror
 * nearest before the station.
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
import { turnAdjuster } from '../plan/index.ts';
import { stepsOf } from './steps.ts';

/**
 * Turns. Enough to stand out of the reading's noise by so much that the next turn can be computed, a little more where
 * there is far to go; a smaller one is made twice, and teaches less.
 */
const TRIAL = 3 / 16;
const LARGE_TRIAL = 1 / 4;
/** Turns after which a screw that did nothing is given up: it is seized, or slips. */
const ENOUGH = 1;
/** A screw is known once its effect stands out of its uncertainty by so much. */
const KNOWN = 2;

/** @param planned whether there is a plan besides, a doubtful one: then nothing is tried on a mirror that known screws steer every way */
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

/** The sine of the angle between what two screws do from which on they steer a mirror every way. */
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

/** Its place is written down, or its effect stands out of what is not known of it. */
export function isKnown({ system, distribution: { values, covariance } }: Estimate, screw: ScrewPlace): boolean {
  if (screw.effect) return true;
  const index = gainOf(system, screw);
  const variance = (at: number) => covariance[at]![at]!;
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

/** In shares of a limit: less is no reason to turn the other way, or to take back a turn that taught too little. */
const BETTER = 0.02;
const CLEARLY_BETTER = 0.3;

/** In, or as it was turned before, unless what is guessed of the screw says that the other way leaves less of what fails. */
function direction(estimate: Estimate, { part, screw }: ScrewPlace, { demand }: StationVerdict): 1 | -1 {
  const before = estimate.distribution.senses.get(screwKey(part, screw));
  const way = before === undefined || before > 0 ? 1 : -1;
  const utilisationAfter = (turns: number) => worst(estimate, demand, withTurn(NO_MOVE, part, screw, turns));
  const other =
    utilisationAfter(-way * TRIAL) < utilisationAfter(way * TRIAL) - (before === undefined ? BETTER : CLEARLY_BETTER);
  return other ? (way === 1 ? -1 : 1) : way;
}

/** The largest share of a limit that is probably taken after a move. */
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
