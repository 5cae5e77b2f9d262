/** If no move helps: the obstacle, and how to remove it. */
import { endsInWords } from './ends-words.ts';
import { looseness, type Estimate, type State } from '../estimate/index.ts';
import type { Next } from './next-type.ts';
import { isMark, points, type Place } from '../machine/index.ts';
import { placeOfRails, railsInTheWay } from './rails-in-the-way.ts';
import { problemInWords } from './reasons.ts';
import { percent } from '../words/index.ts';
import { repairStep } from './steps.ts';
import { heightsOf, requestAt, timesShot } from './shooting.ts';
import { shootAgain } from './shoot-again.ts';
import { placesRead, type Limited, type Work } from '../plan/index.ts';

/** A blocked verdict with one repair step. */
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
      `The beam comes down straight beside ${report.name}: no screw of the mirror above it can move it there without tilting it. Move the lens holder, the head or the block of that mirror, or turn all its screws alike. Then shoot again.`,
      why,
    );
  const atEnd = endsInWords(state, estimate.system, target.station.index);
  if (atEnd !== undefined)
    return blocked(
      `No remaining turn brings ${report.name} within its limits: ${atEnd}. Back off all screws of that mirror by the same amount to make room, or move its block. Log that, then shoot again.`,
      why,
    );
  if (report.state === 'borderline') {
    return blocked(
      `The marks on ${report.name} are too near the limits for the reading to prove them within (probability ${percent(report.probability ?? 0)}, required ${percent(state.limits!.confidence)}). No practicable move improves this, and more shots would not decide it: the limit is finer than tape can show. Widen the limits, or read more finely.`,
      why,
    );
  }
  const { shots, reason } = toRepeat(state, job.target);
  if (shots.length > 0)
    return shootAgain(state, estimate, job.target, {
      shots,
      reason: `${why} No screw, tube or block that may be moved corrects this. ${reason}`,
    });
  return blocked(
    `No screw, tube or block that may be moved brings ${report.name} within its limits. What remains is not an angle error: look for heights that differ, an aperture out of place, a bowed rail, or a carriage that pitches. Correct it with shims, tube, block or rail, not with screws.`,
    why,
  );
}

/**
 * Whether the beam at a lens is plumb by tapes at two heights, with its mean mark off centre: then the last mirror's
 * screws are not the cause.
 */
export function comesStraightDown({ station, fresh, report, demand }: Limited): boolean {
  if (station.element.kind !== 'lens' || !fresh.some(({ height }) => height > 0)) return false;
  if (report.requirements.some(({ limit, value = 0, max }) => limit === 'plumb' && value > max)) return false;
  const marks = points(fresh).filter(isMark);
  const mean = (part: 'right' | 'up') => marks.reduce((sum, mark) => sum + mark[part], 0) / marks.length;
  return marks.length > 0 && Math.hypot(mean('right'), mean('up')) > (demand.limits.centre ?? Infinity);
}

/** Shots of each place, since a misread mark looks like a bent rail or a beam out of plumb. */
const TWICE = 2;
/** The same while a part may be loose, which looks like them too until its marks differ at one place. */
const LOOSE_EXCLUDED = 6;

/**
 * The places that were shot too few times to take anything apart, the bed included; and `also`, if it was not shot at
 * all.
 */
function toRepeat(state: State, target: Limited, also?: Place) {
  const { probability, isSuspected } = looseness(state);
  const read = placesRead(target);
  const places = target.demand.places.filter((place) => place === also || read.includes(place)).map(requestAt);
  const bed = target.fresh.some(({ height }) => height > 0) ? heightsOf(target.station) : [];
  return {
    shots: [...places, ...bed].filter((shot) => timesShot(target, [shot]) < (isSuspected ? LOOSE_EXCLUDED : TWICE)),
    reason: isSuspected
      ? `A loose part would look the same, and is not excluded (probability ${percent(probability)}). Before you take anything apart, shoot these places again.`
      : 'Before you take anything apart, repeat every place that was shot only once.',
  };
}

/** Reports an error of rails that no screw corrects. */
function onRails(state: State, target: Limited, estimate: Estimate, rails: string): Next {
  const repeat = toRepeat(state, target, placeOfRails(estimate, target));
  const shots = repeat.shots.filter(({ height }) => height === undefined);
  const why = problemInWords(target, '');
  if (shots.length > 0)
    return shootAgain(state, estimate, target, {
      shots,
      reason: `${why} ${rails} No screw corrects this. ${repeat.reason}`,
    });
  return blocked(
    `No screw brings ${target.report.name} within its limits. ${rails} Correct that first, then shoot again.`,
    why,
  );
}
