/**
 * The next step, with its reason. Stations are aligned in the order of the beam; one is worked on only when those
 * before it are within. Steps are done in order up to and including the first shot; then the log is evaluated again.
 */
import type { Requirement, Step } from '../model/index.ts';
import {
  affects,
  moveOf,
  isAtReach,
  simplerMove,
  COST,
  PROBABILITY,
  planFor,
  shotsNeeded,
  chanceAfter,
  predictedDemands,
  helps,
  isFirstOfTwo,
  MOST_STATIONS,
  placesRead,
  worsens,
  withSafeTurns,
  type Adjuster,
  type Plan,
  type Limited,
  type Work,
  type SafePlan,
} from '../plan/index.ts';
import { agedInWords } from './aged.ts';
import { resolveDoubts, mountInWords } from './resolve-doubts.ts';
import { whatIsWrong, NO_MOVE, stopAt, isMark, points, type System } from '../machine/index.ts';
import { doubts, type Doubts, type Estimate, type State } from '../estimate/index.ts';
import { lookFirst } from './look-first.ts';
import { railsInTheWay } from './rails-in-the-way.ts';
import { choiceInWords, problemInWords } from './reasons.ts';
import { shotPoints, type StationVerdict } from '../verdict/index.ts';
import { longestLanding, requestAt, shoot, shotsAfresh, shotsMore, timesShot, type Shoot } from './shooting.ts';
import { lockStep, nutCheck, releaseStep, stepsOf } from './steps.ts';
import { tightenedWith, tightening } from './tightening.ts';
import { trial } from './trial.ts';
import { blocked, stuck } from './stuck.ts';
import { stopForUnfit } from './unfit-steps.ts';
import { ENOUGH_SHOTS, going, MOST_SHOTS, shootAgain, shootLacking, shotsAPlace, SOME_SHOTS } from './shoot-again.ts';
import { lookAgain, lookElsewhere, plumbFirst, shotFirst } from './before-a-move.ts';
import type { Next } from './next-type.ts';

/** The next steps at a state of the log. */
export function next(state: State, estimate: Estimate, verdicts: readonly StationVerdict[], doubtful: Doubts): Next {
  const stop = stopForUnfit(state);
  if (stop) return stop;
  const limited = verdicts.filter((verdict): verdict is Limited => verdict.demand !== undefined);
  if (limited.length === 0) return blocked('No station has limits, so no station can be judged. Write a limits cell.');
  const first = resolveDoubts(estimate.system, doubtful);
  if (first) return first.verdict === 'blocked' ? { ...first, expected: [] } : going(state, estimate, first.steps);
  const job = workOn(limited);
  const nuts = tightening(state, estimate.system, limited, job?.target);
  if (nuts.length > 0) return going(state, estimate, nuts);
  if (job) return work(state, estimate, job);
  return {
    verdict: 'within',
    steps:
      state.released === undefined
        ? [
            ...nutCheck(state),
            releaseStep(
              estimate.system,
              verdicts.filter(({ demand }) => !demand).map(({ report }) => report.name),
              limited.filter(hasNoPlumb).map(({ report }) => report.name),
            ),
          ]
        : [],
    expected: [],
  };
}

/** The first station that is not within, with those before and after it; undefined if there is none. */
export function workOn(limited: readonly Limited[]): Work | undefined {
  const index = limited.findIndex(({ report }) => report.state !== 'within');
  const target = limited[index];
  return target && { target, before: limited.slice(0, index), after: limited.slice(index + 1) };
}

/** A lens without a plumb limit. */
function hasNoPlumb({ station, demand }: Limited): boolean {
  return station.element.kind === 'lens' && demand.limits.plumb === undefined;
}

function work(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const look = lookFirst(estimate.system, target);
  if (look) return going(state, estimate, look);
  const aged = agedInWords(state, target);
  if (aged !== undefined) return going(state, estimate, [shoot(target.station, shotsAfresh(target, NO_MOVE), aged)]);
  switch (target.report.state) {
    case 'unread':
    case 'stale':
    case 'incomplete':
      return shootLacking(state, estimate, target);
    case 'borderline':
      return borderline(state, estimate, job);
    default:
      return points(target.fresh).some((point) => point.none)
        ? afterMiss(state, estimate, job)
        : outside(state, estimate, job);
  }
}

function borderline(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const shots = shotsMore(target, estimate);
  const needed = shotsNeeded(state, estimate, target, shots);
  if (timesShot(target, shots) === 0) return shootAgain(state, estimate, target, { shots }, needed);
  // Probably outside, and shot at every place: more shots do not help.
  if ((target.report.probability ?? 0) < PROBABILITY.even) return outside(state, estimate, job);
  const plan = planFor(estimate, job);
  const cheap = needed !== undefined && (!plan || needed * shots.length * COST.shot < plan.price);
  const often = shotsAPlace(target);
  const again =
    often < ENOUGH_SHOTS
      ? !plan || plan.saves < COST.saving
      : often < (plan ? SOME_SHOTS : MOST_SHOTS) && (cheap || !plan);
  // A place that was shot twice is not asked for a third time where a turn helps.
  if (again && !(plan && timesShot(target, shots) >= ENOUGH_SHOTS))
    return shootAgain(state, estimate, target, { shots }, needed);
  return adjust(state, estimate, job, plan);
}

/** If no move improves a station that may be within, another shot may show that nothing needs to be done. */
function outside(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const best = planFor(estimate, job);
  // A move that costs more than it gains does not count, unless it reduces the largest utilisation much.
  const remedy = best && (best.saves > 0 || helps(best)) ? best : undefined;
  const shots = shotsMore(target, estimate);
  const isOpen = shots.length > 0 && timesShot(target, shots) === 0;
  const doubtful =
    ((target.report.probability ?? 0) >= PROBABILITY.notExcluded || target.disputed.length > 0) &&
    shotsAPlace(target) < MOST_SHOTS;
  // If the marks themselves are outside, a screw with an unknown effect is tried instead of shooting another place.
  const tries =
    !remedy && target.report.requirements.some(isOver) && trial(state, estimate, target, false) !== undefined;
  if (!remedy && railsInTheWay(estimate, job) !== undefined) return stuck(state, job, estimate);
  return !remedy && ((isOpen && !tries) || doubtful)
    ? shootAgain(state, estimate, target, { shots })
    : adjust(state, estimate, job, remedy);
}

function isOver({ value = 0, max }: Requirement): boolean {
  return value > max;
}

/** Shots of each place before a tube or block is moved, unless the chance is good after one. */
const BEFORE_A_SHIFT = 2;

/**
 * The alternative to a move that is too doubtful: the marks are shot again, or only screws are turned; undefined if the
 * move is made.
 */
function insteadOf(state: State, estimate: Estimate, job: Work, plan: Plan, chance: number): Next | undefined {
  const { target } = job;
  const shifts = plan.adjusters.some(isShift);
  const read = placesRead(target).map(requestAt);
  if (shifts && chance < PROBABILITY.good && timesShot(target, read) < BEFORE_A_SHIFT)
    return shootAgain(state, estimate, target, {
      shots: read,
      reason: `${problemInWords(target)} Shoot these places again on fresh, labelled tape before you move the tube or a block.`,
    });
  if (chance >= PROBABILITY.even) return undefined;
  // Further shots do not increase it.
  if (isFirstOfTwo(estimate, predictedDemands(estimate, job), plan)) return undefined;
  return shifts ? withoutShift(state, estimate, job) : lookAgain(state, estimate, job);
}

function isShift({ kind }: Adjuster): boolean {
  return kind === 'shift';
}

/** The best move of screws alone. */
function withoutShift(state: State, estimate: Estimate, job: Work): Next {
  const plan = planFor(estimate, job, 'screws');
  return plan ? adjust(state, estimate, job, plan) : stuck(state, job, estimate);
}

function adjust(state: State, estimate: Estimate, job: Work, plan: Plan | undefined): Next {
  const { target } = job;
  const isReliable = plan && (plan.worst <= 1 || plan.probability >= PROBABILITY.even);
  const attempt = isReliable ? undefined : trial(state, estimate, target, plan !== undefined);
  if (attempt)
    return going(state, estimate, [
      ...attempt.steps,
      shoot(target.station, shotsAfresh(target, attempt.move, hasLocks(attempt.steps))),
    ]);
  if (!plan) return stuck(state, job, estimate);
  const shot = plumbFirst(state, estimate, target, plan) ?? shotFirst(state, estimate, job, plan);
  if (shot) return shot;
  const move = moveOf(plan.adjusters, plan.amounts);
  if (worsens(estimate, target.demand, move)) return lookElsewhere(state, estimate, job);
  const chanceLoose = chanceAfter(estimate, predictedDemands(estimate, job), move);
  // No screw corrects a rail or the gantry: the error is not distributed.
  if (chanceLoose < PROBABILITY.even && railsInTheWay(estimate, job) !== undefined) return stuck(state, job, estimate);
  return insteadOf(state, estimate, job, plan, chanceLoose) ?? moving(state, estimate, job, plan);
}

/** The steps of a plan, bounded by what is safe now. */
export function moving(state: State, estimate: Estimate, job: Work, proposed: Plan): Next {
  const { target, before } = job;
  const { plan, small } = withSafeTurns(state, estimate, job, proposed);
  const { adjusters, amounts } = plan;
  const demands = predictedDemands(estimate, job);
  const chanceLoose = chanceAfter(estimate, demands, moveOf(adjusters, amounts));
  const { parts: tightened, probability: chance } = tightenedWith(
    estimate,
    { ...plan, probability: chanceLoose },
    demands,
  );
  const upstream = before.slice(-MOST_STATIONS).map(({ demand }) => demand);
  const choice = choiceInWords(
    { ...plan, probability: chance },
    target,
    simplerMove(estimate, plan, target.demand, upstream),
  );
  const limit = small ? smallTurn(small) : twoMoves(plan, chance);
  const why = `${problemInWords(target)} ${choice}${limit}${doubtOf(state, estimate, adjusters)}`;
  const steps = [
    ...stepsOf(state, estimate.system, adjusters, amounts, why),
    ...tightened.map((part) => lockStep(part, 'tight')),
  ];
  return {
    ...going(state, estimate, [...steps, reshoot(estimate.system, { adjusters, amounts, steps }, target, before)]),
    chance,
  };
}

function smallTurn({ mount }: NonNullable<SafePlan['small']>): string {
  const reason = mount
    ? `the marks fit mount ${mount.name} better if ${whatIsWrong(mount)}`
    : 'the responses so far do not yet show which screw does what';
  return ` The turn is kept small: ${reason}, and a larger turn could lose the mark.`;
}

function twoMoves({ adjusters, amounts }: Plan, chance: number): string {
  if (chance >= PROBABILITY.even) return '';
  const isFarthest = adjusters.some((adjuster, k) => isAtReach(adjuster, amounts[k]!));
  return ` About 2 moves are needed: ${isFarthest ? 'this is the maximum for one move' : 'the effect of hand and screws is not known well enough for one move'}.`;
}

/** A sentence, if a screw is turned whose mount may be described wrongly. */
function doubtOf(state: State, { system }: Estimate, adjusters: readonly Adjuster[]): string {
  const doubtful = doubts(state);
  const turned = adjusters.some(
    ({ kind, part }) =>
      kind !== 'shift' &&
      system.machine.path.some(({ name, mount }) => name === part && mount === doubtful.mount?.name),
  );
  return turned ? ` ${mountInWords(doubtful)}` : '';
}

/** An advised move, as amounts and as steps. */
interface Moved {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  readonly steps: readonly Step[];
}

/** The shot of the first station whose marks the move makes stale, which is also first in the order of work. */
export function reshoot(
  system: System,
  { adjusters, amounts, steps }: Moved,
  target: StationVerdict,
  before: readonly StationVerdict[],
): Shoot {
  const first =
    before.find((verdict) => adjusters.some((adjuster) => affects(system, adjuster, verdict.station))) ?? target;
  return shoot(first.station, shotsAfresh(first, moveOf(adjusters, amounts), hasLocks(steps)));
}

function hasLocks(steps: readonly Step[]): boolean {
  return steps.some(({ kind }) => kind === 'lock');
}

/**
 * The beam missed a tape: with one mark only, find the longest leg at which it still hits the tape before turning
 * anything.
 */
function afterMiss(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const marks = shotPoints(target.fresh).filter(isMark);
  if (marks.length === 0) {
    const behind =
      target.station.index === 0 ? 'the tube’s exit' : estimate.system.stations[target.station.index - 1]!.name;
    return blocked(
      `The beam misses the tape on ${target.report.name} even at its nearest place. Find the beam with a larger piece of tape close after ${behind}, and bring it back onto the aperture by hand. Then shoot again and log the marks.`,
      problemInWords(target),
    );
  }
  const leg = marks.length === 1 ? longestLanding(target, estimate, target.demand) : undefined;
  if (leg === undefined) return adjust(state, estimate, job, planFor(estimate, job));
  const why = `${problemInWords(target)} This is the longest leg at which the next mark is sure to land on the tape. Two marks give the angle.`;
  return going(state, estimate, [shoot(target.station, [{ at: stopAt(target.station.own!, leg) }], why)]);
}
