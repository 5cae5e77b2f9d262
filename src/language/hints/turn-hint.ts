/** At an adjustment: the predicted effect on the marks, and after the next marks the measured one. */
import { listed, markWithUnits, shortPlace } from '../../words/index.ts';
import type { TurnEffect } from '../../evaluation/index.ts';
import { lengthsIn, pathTo, type Axes } from '../../model/index.ts';
import type { HintsFor } from './hint.ts';
import { inOneLine } from '../words/in-one-line.ts';

/** The hint of an adjust cell; empty if the effect is not computed. */
export const turnHint: HintsFor = (book, { entry, index }) => {
  const span = entry.kind === 'adjust' ? entry.spans[pathTo('adjust')] : undefined;
  // What a turn of a practice machine will do is the learner's to expect.
  const turned = span && !book.isAdviceClosed() ? book.log.turnEffect(index) : undefined;
  return span && turned ? [{ span, label: shortLabel(turned), tooltip: inFull(turned) }] : [];
};

/**
 * `moves M2 far (front) 3.2 mm left (machine right) 1.1 mm down`, as predicted; `M2 far (front) moved 3.1 mm, predicted
 * 3.3 mm, off by 8°`
 */
function shortLabel(turned: TurnEffect): string {
  const { round, should, frame, unknown } = turned;
  const { read } = lengthsIn(frame.units);
  const size = ({ right, up }: Axes) => read(Math.hypot(right, up));
  if (unknown.length > 0) return round ? `${placeOf(turned)} moved ${size(round.did)}` : notKnown(turned);
  if (!round) {
    if (size(should) === read(0)) return inOneLine([`should hardly move ${placeOf(turned)}`], '');
    const mark = markWithUnits(should.right, should.up, frame);
    return `moves ${cut(placeOf(turned), LONGEST - mark.length)} ${mark}`;
  }
  const aside = angleBetween(round.should, round.did);
  return inOneLine(
    [
      `${placeOf(turned)} moved ${size(round.did)}`,
      `predicted ${size(round.should)}`,
      ...(aside === undefined ? [] : [`off by ${aside}°`]),
    ],
    ', ',
  );
}

/** Characters of place and effect: of two, the name is cut, never a direction. */
const LONGEST = 52;
const SHORTEST = 12;

function cut(place: string, room: number): string {
  const most = Math.max(SHORTEST, room);
  return place.length > most ? `${place.slice(0, most - 1)}…` : place;
}

function inFull(turned: TurnEffect): string {
  const { round, should, frame, unknown } = turned;
  const way = ({ right, up }: Axes) => markWithUnits(right, up, frame).replace('centred', 'not at all');
  const alone = `This cell should move the mark at ${placeOf(turned)} by ${way(should)}, predicted from what was known of the screws before it.`;
  if (unknown.length > 0)
    return round
      ? `Since the marks before, the mark at ${placeOf(turned)} moved by ${way(round.did)}.`
      : `${notKnown(turned)}: the next marks on ${turned.station} show it.`;
  if (!round) return alone;
  return [alone, `Since the marks before: predicted ${way(round.should)}, moved ${way(round.did)}.`].join('\n\n');
}

function notKnown({ unknown }: TurnEffect): string {
  return `the effect of ${listed(unknown)} is not known yet`;
}

function placeOf({ station, carriages, at, with: others }: TurnEffect): string {
  const place = shortPlace(carriages, at, others);
  return place === '' ? station : `${station} ${place}`;
}

/** Degrees; undefined if one of them is too small to have a direction. */
function angleBetween(one: Axes, other: Axes): number | undefined {
  if (Math.hypot(one.right, one.up) < 0.5 || Math.hypot(other.right, other.up) < 0.5) return undefined;
  const angle = Math.atan2(one.right * other.up - one.up * other.right, one.right * other.right + one.up * other.up);
  return Math.round(Math.abs((angle * 180) / Math.PI));
}
