/**
 * A cell's text → what is parsed of it. Blanking keeps every offset, so whatever the parser reports stands at the same
 * place in the original. A line `...` becomes a comment, not blanks: these would belong to a block of text before it.
 */
import type { Conflict, Stretch } from './conflicts.ts';
import type { Extent } from './extents.ts';
import { isIdle, lineEnd, nextLine } from './lines.ts';

/** The readings of one cell, and whether nothing at all stands in it. `conflicts` are those that touch it. */
export function readingsOf(
  text: string,
  extent: Extent,
  conflicts: readonly Conflict[],
): { readings: string[]; empty: boolean } {
  const { from, opener = from, closer, prelude } = extent;
  const isPlain = conflicts.length === 0 && opener === from && closer === undefined && prelude.length === 0;
  if (isPlain) return plainReading(text, extent);
  const always = [...markerLines(text, extent), ...conflicts.flatMap(neverRead)];
  const sides = sidesWithin(text, extent, conflicts);
  const readings = (sides.length > 0 ? sides : [undefined]).map((side) => {
    const others = conflicts.flatMap((conflict) => (conflict.sides && side ? [conflict.sides[otherSide(side)]] : []));
    return blanked(text, extent, [...always, ...others]);
  });
  const written = readings.filter((reading) => !isBlank(reading));
  return { readings: written.length > 0 ? written : readings.slice(0, 1), empty: written.length === 0 };
}

/** Nearly every cell: a `---` at its beginning, or none, and no other marker. */
function plainReading(text: string, { from, to, opener }: Extent): { readings: string[]; empty: boolean } {
  const body = opener === undefined ? from : from + 3;
  const reading = ' '.repeat(body - from) + text.slice(body, to);
  return { readings: [reading], empty: isBlank(text, body, to) };
}

type Side = 'ours' | 'theirs';

function otherSide(side: Side): Side {
  return side === 'ours' ? 'theirs' : 'ours';
}

/**
 * The sides that the cell shows: those it holds lines of, or both where it holds the whole conflict (one of them may
 * have deleted its lines). Where neither has more than comments there, one reading says it all.
 */
function sidesWithin(text: string, extent: Extent, conflicts: readonly Conflict[]): Side[] {
  const whole = conflicts.filter(({ sides }) => sides);
  const shown = (['ours', 'theirs'] as const).filter((side) =>
    whole.some((conflict) => isWithin(conflict, extent) || overlap(conflict.sides![side], extent) !== undefined),
  );
  const tells = whole.some(({ sides }) =>
    [sides!.ours, sides!.theirs].some((side) => {
      const part = overlap(side, extent);
      return part && !isBlank(text, part.from, part.to);
    }),
  );
  return tells ? shown : shown.slice(0, 1);
}

function isWithin(inner: Stretch, outer: Stretch): boolean {
  return inner.from >= outer.from && inner.to <= outer.to;
}

function overlap(a: Stretch, b: Stretch): Stretch | undefined {
  const [from, to] = [Math.max(a.from, b.from), Math.min(a.to, b.to)];
  return from < to ? { from, to } : undefined;
}

/** `---` without what follows it on its line, the whole line of `...`, what is not parsed before `---`. */
function markerLines(text: string, { opener, closer, prelude }: Extent): Blank[] {
  const line = (from: number, sign?: '#') => ({ from, to: lineEnd(text, from), ...(sign && { sign }) });
  const dashes = opener === undefined ? [] : [{ from: opener, to: opener + 3 }];
  return [...prelude.map((from) => line(from)), ...dashes, ...(closer === undefined ? [] : [line(closer, '#')])];
}

function neverRead({ markers, sides }: Conflict): Stretch[] {
  const lines = markers.map(({ start, next }) => ({ from: start, to: next }));
  return sides ? [...lines, sides.base] : lines;
}

interface Blank extends Stretch {
  /** what its first character becomes, when not a space */
  readonly sign?: '#';
}

/** The cell's text with the stretches' characters, line ends excepted, replaced by spaces. */
function blanked(text: string, extent: Extent, stretches: readonly Blank[]): string {
  let result = '';
  let at = extent.from;
  for (const stretch of [...stretches].sort((a, b) => a.from - b.from)) {
    const part = overlap(stretch, { from: at, to: extent.to });
    if (!part) continue;
    const blanks = text.slice(part.from, part.to).replace(/\r(?!\n)|[^\r\n]/g, ' ');
    result += text.slice(at, part.from) + (stretch.sign ? stretch.sign + blanks.slice(1) : blanks);
    at = part.to;
  }
  return result + text.slice(at, extent.to);
}

/** Nothing but blanks and comments in whole lines of a text. */
function isBlank(text: string, from = 0, to = text.length): boolean {
  for (let at = from; at < to; at = nextLine(text, at)) if (!isIdle(text, at)) return false;
  return true;
}
