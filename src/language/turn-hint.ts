/** At an adjustment: what it should do to the marks, and once they were shot, what it did. */
import { markInWords, placeInCell, type Turned } from '../alignment/index.ts';
import type { Axes } from '../model/index.ts';
import type { HintsFor } from './hints.ts';
import { inOneLine } from './in-one-line.ts';

export const turnHint: HintsFor = ({ log }, { entry, index }) => {
  const span = entry.kind === 'adjust' ? entry.spans['adjust'] : undefined;
  const turned = span && log.turned(index);
  return turned ? [{ span, label: inBrief(turned), tooltip: inFull(turned) }] : [];
};

/** `should move M2 far 3.2 left (machine right) 1.1 down mm`; `M2 far moved 3.1 mm, 3.3 mm was due, 8° aside` */
function inBrief(turned: Turned): string {
  const { round, should, frame } = turned;
  if (!round) return inOneLine([size(should) === '0.0' ? `should hardly move ${placeOf(turned)}` : `should move ${placeOf(turned)} ${markInWords(should.right, should.up, frame)} mm`], '');
  const aside = angleBetween(round.should, round.did);
  return inOneLine([`${placeOf(turned)} moved ${size(round.did)} mm`, `${size(round.should)} mm was due`, ...(aside === undefined ? [] : [`${aside}° aside`])], ', ');
}

function inFull(turned: Turned): string {
  const { round, should, frame } = turned;
  const way = ({ right, up }: Axes) => markInWords(right, up, frame).replace('in the middle', 'not at all');
  const alone = `This cell should move the mark at ${placeOf(turned)} by ${way(should)} (mm), by what was believed of the screws before it.`;
  if (!round) return alone;
  return [alone, `Since the marks before: by ${way(round.should)} was due, by ${way(round.did)} it moved.`].join('\n\n');
}

function placeOf({ station, at, with: others }: Turned): string {
  const place = placeInCell(at, others);
  return place === '' ? station : `${station} ${place}`;
}

function size({ right, up }: Axes): string {
  return Math.hypot(right, up).toFixed(1);
}

/** Degrees; nothing where one of them is too small to have a direction. */
function angleBetween(one: Axes, other: Axes): number | undefined {
  if (Math.hypot(one.right, one.up) < 0.5 || Math.hypot(other.right, other.up) < 0.5) return undefined;
  const angle = Math.atan2(one.right * other.up - one.up * other.right, one.right * other.right + one.up * other.up);
  return Math.round(Math.abs((angle * 180) / Math.PI));
}
