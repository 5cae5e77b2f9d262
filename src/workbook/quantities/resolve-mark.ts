/**
 * Interprets a mark on its leg, in the viewer's frame: you look along the beam at the burnt side of the tape, right =
 * beam direction × up. On vertical legs the viewer's up is ambiguous, so only the machine's words are accepted there,
 * and (internally) up is the rear.
 */
import {
  DIRECTIONS,
  directionVector,
  isVertical,
  viewer,
  type Direction,
  type Displacement,
} from '../../model/index.ts';
import type { DirectedLength } from './directed.ts';
import type { ClockPlace, Mark } from './mark.ts';
import { problem, read, refuse, type QuantityProblem, type Reading } from './reading.ts';

/** The side from which a tape was read. */
export type ViewingSide = 'along beam' | 'against beam';

/** mm from the aperture's centre in the viewer's frame; a coordinate that was not read is absent. */
export interface ResolvedMark {
  readonly right?: number;
  readonly up?: number;
  /** standard uncertainties in mm, if written */
  readonly u?: { readonly right?: number; readonly up?: number };
}

/**
 * The mark's place on a leg along `leg`. Problems: `mark.words` (for clock times on vertical legs too),
 * `mark.twice`, `mark.seen`. A mark `none` has no place: both axes are absent.
 * @param side the side from which the tape was read, if the cell gives it; machine words do not depend on it
 */
export function resolveMark({ place }: Mark, leg: Direction, side?: ViewingSide): Reading<ResolvedMark> {
  const vertical = isVertical(leg);
  if (vertical && side !== undefined) return refuse(problem('mark.seen', 0, 0, { runs: leg }));
  const flip = side === 'against beam' ? -1 : 1;
  switch (place.kind) {
    case 'none':
      return read({});
    case 'centre':
      return read({ right: 0, up: 0 });
    case 'parts':
      return resolved(place.parts, leg, flip);
    case 'clock': {
      if (!vertical) return read(onFace(place.clock, flip));
      const { hour, minute, from, to } = place.clock;
      return refuse(refused(`${hour}:${String(minute).padStart(2, '0')}`, from, to, leg));
    }
  }
}

function refused(word: string, from: number, to: number, leg: Direction): QuantityProblem {
  return problem('mark.words', from, to, { word, runs: leg, words: Object.keys(meanings(leg, 1)).join(', ') });
}

/** 30° × (H + M/60) clockwise from up. */
function onFace({ length, u, hour, minute }: ClockPlace, flip: 1 | -1): ResolvedMark {
  const angle = (Math.PI / 6) * (hour + minute / 60);
  const place = { right: flip * length * Math.sin(angle), up: length * Math.cos(angle) };
  return u === undefined ? place : { ...place, u: { right: u, up: u } };
}

function resolved(parts: readonly DirectedLength[], leg: Direction, flip: 1 | -1): Reading<ResolvedMark> {
  const place: { right?: number; up?: number } = {};
  const uncertainties: { right?: number; up?: number } = {};
  const problems: QuantityProblem[] = [];
  const words: { right?: Direction; up?: Direction } = {};
  for (const { length, u, word, from, to } of parts) {
    const meaning = meanings(leg, flip)[word];
    if (!meaning) {
      problems.push(refused(word, from, to, leg));
      continue;
    }
    const [axis, sign] = meaning;
    const other = words[axis];
    if (other) problems.push(problem('mark.twice', from, to, { word, other }));
    words[axis] = word;
    place[axis] = sign * length + 0;
    if (u !== undefined) uncertainties[axis] = u;
  }
  if (problems.length > 0) return refuse(...problems);
  return read(Object.keys(uncertainties).length > 0 ? { ...place, u: uncertainties } : place);
}

type Meaning = readonly [axis: 'right' | 'up', sign: number];

type Meanings = Partial<Record<Direction, Meaning>>;

/** The words that may be used on a leg → the viewer's axis and sign. */
function meanings(leg: Direction, flip: 1 | -1): Meanings {
  return flip === 1 ? ALONG[leg] : AGAINST[leg];
}

// Twelve tables, computed once: every mark of a log uses one.
const ALONG = everyLeg(1);
const AGAINST = everyLeg(-1);

function everyLeg(flip: 1 | -1): Readonly<Record<Direction, Meanings>> {
  return Object.fromEntries(DIRECTIONS.map((leg) => [leg, meaningsOn(leg, flip)])) as Record<Direction, Meanings>;
}

function meaningsOn(leg: Direction, flip: 1 | -1): Meanings {
  const frame = viewer(leg);
  const machine = (word: Direction): Meaning => {
    const right = dot(directionVector(word), frame.right);
    return right !== 0 ? ['right', right] : ['up', dot(directionVector(word), frame.up)];
  };
  if (isVertical(leg)) {
    return { left: machine('left'), right: machine('right'), front: machine('front'), rear: machine('rear') };
  }
  const viewerWords: Meanings = {
    left: ['right', -flip],
    right: ['right', flip],
    up: ['up', 1],
    down: ['up', -1],
  };
  return leg === 'left' || leg === 'right'
    ? { ...viewerWords, front: machine('front'), rear: machine('rear') }
    : viewerWords;
}

function dot(a: Displacement, b: Displacement): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
