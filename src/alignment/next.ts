/**
 * The one next step, and why: stations in the order in which the beam meets them; one is worked only when those
 * before it are within. Steps are done in order up to and including the first shot; then the log is read again.
 */
import { waysOf, type Expected, type Step, type Verdict } from '../model/index.ts';
import { affects, moveOf, type Adjuster } from './adjusters.ts';
import type { Demand } from './demand.ts';
import type { Estimate } from './estimate.ts';
import { instead } from './instead.ts';
import { NO_MOVE, TUBE, type Move } from './move.ts';
import { plan, type Plan } from './plan.ts';
import { stopAt } from './places.ts';
import { missesBed } from './plumbed.ts';
import { isMark, points } from './points.ts';
import { choiceInWords, percent, problemInWords } from './reasons.ts';
import { shot, type Standing } from './report.ts';
import { expectations, longestLanding, shoot, shotsAfresh, shotsLacking, shotsMore, timesShot, type Shoot } from './shooting.ts';
import { lockStep, releaseStep, repairStep, stepsOf } from './steps.ts';
import { lastMoved, type State } from './state.ts';
import type { System } from './system.ts';
import { trial } from './trial.ts';
import { listed } from './words.ts';

export interface Next {
  readonly verdict: Verdict;
  readonly steps: readonly Step[];
  readonly expected: readonly Expected[];
}

type Limited = Standing & { readonly asked: Demand };

/** The station that is worked, and those before and after it. */
interface Work {
  readonly target: Limited;
  readonly before: readonly Limited[];
  readonly after: readonly Limited[];
}

export function next(state: State, estimate: Estimate, standings: readonly Standing[]): Next {
  const limited = standings.filter((standing): standing is Limited => standing.asked !== undefined);
  if (limited.length === 0) return blocked('No station has limits, so nothing can be called within. Write a limits cell.');
  const target = limited.find(({ report }) => report.state !== 'within');
  if (target) return work(state, estimate, { target, before: limited.slice(0, limited.indexOf(target)), after: limited.slice(limited.indexOf(target) + 1) });
  if (state.loose.size > 0) return lockUp(state, estimate, limited);
  return { verdict: 'within', steps: state.released === undefined ? [releaseStep(estimate.system, standings.filter(({ asked }) => !asked).map(({ report }) => report.name))] : [], expected: [] };
}

export function blocked(say: string, why?: string): Next {
  return { verdict: 'blocked', steps: [repairStep(say, why)], expected: [] };
}

function work(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  switch (target.report.state) {
    case 'unread':
    case 'stale': return shootLacking(state, estimate, target);
    case 'borderline': return borderline(state, estimate, job);
    default: return points(target.fresh).some((point) => point.none) ? afterMiss(state, estimate, job) : outside(state, estimate, job);
  }
}

/** After so many shots of the same tapes a turn is worth more than another one; after so many nothing more can be read. */
const ENOUGH_SHOTS = 2;
const MOST_SHOTS = 8;

function going(state: State, estimate: Estimate, steps: readonly Step[], move: Move): Next {
  const last = steps.at(-1);
  return { verdict: 'continue', steps, expected: last?.kind === 'shoot' ? expectations(state, estimate, last, move) : [] };
}

function shootLacking(state: State, estimate: Estimate, target: Limited): Next {
  const { report, station } = target;
  const why = report.state === 'unread'
    ? `${report.name} has not been shot yet.`
    : report.staleSince === undefined ? lackInWords(target) : `The marks on ${report.name} no longer hold: ${moverInWords(state, target)}.`;
  return going(state, estimate, [shoot(station, shotsLacking(target), why)], NO_MOVE);
}

/** What is missing where something was read. */
function lackInWords({ report, fresh, lacksPlumb }: Limited): string {
  if (missesBed(fresh)) return `The beam misses the tape on the bed below ${report.name}: lay a larger one under the head, or shoot it at smaller heights.`;
  const half = points(fresh).find((point) => !point.none && (point.right === undefined) !== (point.up === undefined));
  if (half) return `${report.name} was read one way only: ${waysOf(half.right === undefined ? 'right' : 'up', report.frame.runs)} is missing.`;
  if (fresh.some(({ height }) => height > 0) && lacksPlumb(NO_MOVE)) return `The tape on the bed below ${report.name} tells no plumb yet: it takes two heights in one cell, both parts read.`;
  return `${report.name} is not shot yet at all the places that its limits are about.`;
}

/** What made a station's marks stale. */
function moverInWords(state: State, { station, contradicted }: Limited): string {
  if (contradicted) return `those on ${contradicted.station} have come since, where the log does not bring them`;
  const { order } = lastMoved(state, station);
  const part = [...state.steered, ...state.placed].find(([, moment]) => moment.order === order)?.[0];
  if (part === undefined) return 'a new session, an event, a changed machine or a cell that cannot be read has come since';
  return `${part === TUBE ? 'the tube' : part} was moved, locked or taken out since`;
}

/** Below this nobody would say `probably`. */
const EVEN = 0.5;

function shootAgain(state: State, estimate: Estimate, target: Limited): Next {
  const chance = percent(target.report.probability ?? 0);
  const sure = `${chance} sure to be within, ${percent(state.limits!.confidence)} are asked`;
  const why = target.report.state === 'borderline'
    ? `The marks on ${target.report.name} are ${(target.report.probability ?? 0) < EVEN ? 'near' : 'probably inside'} the limits, but reading them is not sure enough to say so (${sure}). Another shot costs less than another turn.`
    : `The marks on ${target.report.name} are near the limits (${sure}), and no move that a hand can do betters that. Another shot may show that nothing is to be done.`;
  return going(state, estimate, [shoot(target.station, shotsMore(target, estimate), why)], NO_MOVE);
}

/** No machine has so many; a file may. */
export const MOST_STATIONS = 6;

/** A probability below which a plan is a groping in the dark that a trial turn would light up. */
const WORTH_TRYING = 0.5;

function planned(estimate: Estimate, { target, before, after }: Work): Plan | undefined {
  const asked = (some: readonly Limited[]) => some.slice(-MOST_STATIONS).map((one) => one.asked);
  return plan(estimate, target.asked, asked(before), asked(after));
}

/** What a move must be worth more than another shot, in screws turned: a shot costs little, and may show that nothing is to be done. */
const WORTH_A_HAND = 5;

function borderline(state: State, estimate: Estimate, job: Work): Next {
  const times = timesShot(job.target);
  const found = planned(estimate, job);
  const shot = times < ENOUGH_SHOTS ? !found || found.saves < WORTH_A_HAND : !found && times < MOST_SHOTS;
  return shot ? shootAgain(state, estimate, job.target) : adjust(state, estimate, job, found);
}

/** Where no move betters what is not sure to be outside, shooting it again may show that nothing is to be done. */
function outside(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const found = planned(estimate, job);
  const doubtful = (target.report.probability ?? 0) >= WORTH_A_SHOT && timesShot(target) < MOST_SHOTS;
  return !found && doubtful ? shootAgain(state, estimate, target) : adjust(state, estimate, job, found);
}

const WORTH_A_SHOT = 0.1;

function adjust(state: State, estimate: Estimate, job: Work, found: Plan | undefined): Next {
  const { target, before } = job;
  const known = found && (found.worst <= 1 || found.probability >= WORTH_TRYING);
  const attempt = known ? undefined : trial(state, estimate, target, found !== undefined);
  if (attempt) return going(state, estimate, [...attempt.steps, shoot(target.station, shotsAfresh(target, attempt.move, hasLocks(attempt.steps)))], attempt.move);
  if (!found) return stuck(target);
  const { adjusters, amounts } = found;
  const upstream = before.slice(-MOST_STATIONS).map(({ asked }) => asked);
  const steps = stepsOf(state, estimate.system, adjusters, amounts, `${problemInWords(target)} ${choiceInWords(found, target, instead(estimate, found, target.asked, upstream))}`);
  return going(state, estimate, [...steps, reshoot(estimate.system, { adjusters, amounts, steps }, target, before)], moveOf(adjusters, amounts));
}

/** What is advised, as numbers and as steps. */
interface Moved {
  readonly adjusters: readonly Adjuster[];
  readonly amounts: readonly number[];
  readonly steps: readonly Step[];
}

/** The first station whose marks the move makes stale: it comes first in the order of work, too. */
export function reshoot(of: System, { adjusters, amounts, steps }: Moved, target: Standing, before: readonly Standing[]): Shoot {
  const first = before.find((standing) => adjusters.some((adjuster) => affects(of, adjuster, standing.station))) ?? target;
  return shoot(first.station, shotsAfresh(first, moveOf(adjusters, amounts), hasLocks(steps)));
}

function hasLocks(steps: readonly Step[]): boolean {
  return steps.some(({ kind }) => kind === 'lock');
}

function stuck({ report, ...target }: Limited): Next {
  const why = problemInWords({ report, ...target });
  if (report.state === 'borderline') {
    return blocked(`The marks on ${report.name} are inside the limits, yet so near them that reading cannot prove it (${percent(report.probability ?? 0)}). No move that a hand can do makes it better: widen the limits, or read finer.`, why);
  }
  return blocked(`No screw, tube or block that may be moved brings ${report.name} within its limits. What is left is not an angle: look for heights that differ, an aperture off its place, a bowed rail, or a carriage that pitches; shims, tube, block or rail cure it, screws do not.`, why);
}

/** The beam missed a tape: with one mark only, look where it still lands before turning anything. */
function afterMiss(state: State, estimate: Estimate, job: Work): Next {
  const { target } = job;
  const marks = shot(target.fresh).filter(isMark);
  if (marks.length === 0) {
    const behind = target.station.index === 0 ? 'the tube’s exit' : estimate.system.stations[target.station.index - 1]!.name;
    return blocked(`The beam misses the tape on ${target.report.name} even at its nearest. Find it with a larger piece of tape close behind ${behind}, and bring it back onto the hole by hand; then shoot again and write down the marks.`, problemInWords(target));
  }
  const leg = marks.length === 1 ? longestLanding(target, estimate, target.asked) : undefined;
  if (leg === undefined) return adjust(state, estimate, job, planned(estimate, job));
  const why = `${problemInWords(target)} This is the longest leg at which the next mark is sure to land on the tape; two marks give the angle.`;
  return going(state, estimate, [shoot(target.station, [{ at: stopAt(target.station.own!, leg) }], why)], NO_MOVE);
}

/** Tightening moves mirrors, so what lies after them is shot again. */
function lockUp(state: State, estimate: Estimate, limited: readonly Limited[]): Next {
  const parts = [...state.loose];
  const first = Math.min(...parts.map((part) => estimate.system.stations.find(({ name }) => name === part)?.index ?? -1));
  const after = limited.find(({ station }) => station.index > first) ?? limited.at(-1)!;
  const why = `Everything is within, and ${listed(parts)} ${parts.length > 1 ? 'are' : 'is'} still loose. Locking moves mirrors: shoot again.`;
  const steps = parts.map((part, k) => lockStep(part, 'tight', k === 0 ? why : undefined));
  return going(state, estimate, [...steps, shoot(after.station, shotsAfresh(after, NO_MOVE, true))], NO_MOVE);
}
