/** Where nothing that a hand can do helps: what is in the way, and what can be done about it. */
import type { ShotRequest } from '../model/index.ts';
import { endsInWords } from './ends-words.ts';
import type { Estimate, State } from '../estimate/index.ts';
import type { Next } from './next-type.ts';
import { isMark, points, type Place } from '../machine/index.ts';
import { placeOfRails, railsInTheWay } from './rails-in-the-way.ts';
import { problemInWords } from './reasons.ts';
import { percent } from '../words/index.ts';
import { repairStep } from './steps.ts';
import { heightsOf, requestAt, timesShot } from './shooting.ts';
import { shootAgain } from './shoot-again.ts';
import { placesRead, type Limited, type Work } from '../plan/index.ts';

export function blocked(say: string, why?: string): Next {
  return { verdict: 'blocked', steps: [repairStep(say, why)], expected: [] };
}

export function stuck(state: State, job: Work, estimate: Estimate): Next {
  const { report, ...target } = job.target;
  const rails = railsInTheWay(estimate, job);
  if (rails !== undefined) return onRails(state, job.target, estimate, rails);
  const why = problemInWords(job.target, '');
  if (comesStraightDown(job.target))
    return blocked(
      `The beam comes down straight beside ${report.name}: no screw of the mirror above it moves it there without tilting it. Move the lens holder or the head, or that mirror's block or all its screws alike; then shoot again.`,
      why,
    );
  const atEnd = endsInWords(state, estimate.system, target.station.index);
  if (atEnd !== undefined)
    return blocked(
      `No turn that is left brings ${report.name} within its limits: ${atEnd}. Back off all screws of that mirror by the same amount so that it has room, or move its block, and log that; then shoot again.`,
      why,
    );
  if (report.state === 'borderline') {
    return blocked(
      `The marks on ${report.name} are so near the limits that reading cannot prove them inside (${percent(report.probability ?? 0)} sure, ${percent(state.limits!.confidence)} asked). No move that a hand can do makes it better, and more shots would not settle it: the limit is finer than the tape. Widen the limits, or read finer.`,
      why,
    );
  }
  const shots = shotOnce(job.target);
  if (shots.length > 0)
    return shootAgain(state, estimate, job.target, {
      shots,
      reason: `${why} No screw, tube or block that may be moved cures that. ${TWICE_FIRST}`,
    });
  return blocked(
    `No screw, tube or block that may be moved brings ${report.name} within its limits. What is left is not an angle: look for heights that differ, an aperture off its place, a bowed rail, or a carriage that pitches; shims, tube, block or rail cure it, screws do not.`,
    why,
  );
}

/** On a lens, by tapes at two heights, with its marks beside the middle on the whole: then its last mirror's screws are not the cause. */
export function comesStraightDown({ station, fresh, report, asked }: Limited): boolean {
  if (station.element.kind !== 'lens' || !fresh.some(({ height }) => height > 0)) return false;
  if (report.requirements.some(({ limit, value = 0, max }) => limit === 'plumb' && value > max)) return false;
  const marks = points(fresh).filter(isMark);
  const mean = (part: 'right' | 'up') => marks.reduce((sum, mark) => sum + mark[part], 0) / marks.length;
  return marks.length > 0 && Math.hypot(mean('right'), mean('up')) > (asked.limits.centre ?? Infinity);
}

/** A misread mark, or a loose part, looks like a bent rail or a beam out of plumb. */
const TWICE_FIRST = 'What was shot only once is shot again before anything is taken apart.';
const TWICE = 2;

/** Places that were shot once, the bed among them; and `also`, where it was not shot at all. */
function shotOnce(target: Limited, also?: Place): ShotRequest[] {
  const read = placesRead(target);
  const places = target.asked.places.filter((place) => place === also || read.includes(place)).map(requestAt);
  const bed = target.fresh.some(({ height }) => height > 0) ? heightsOf(target.station) : [];
  return [...places, ...bed].filter((shot) => timesShot(target, [shot]) < TWICE);
}

/** What no screw takes away. */
function onRails(state: State, target: Limited, estimate: Estimate, rails: string): Next {
  const shots = shotOnce(target, placeOfRails(estimate, target)).filter(({ height }) => height === undefined);
  const why = problemInWords(target, '');
  if (shots.length > 0)
    return shootAgain(state, estimate, target, {
      shots,
      reason: `${why} ${rails} No screw takes that away. ${TWICE_FIRST}`,
    });
  return blocked(
    `No screw brings ${target.report.name} within its limits. ${rails} Correct that first; then shoot again.`,
    why,
  );
}
