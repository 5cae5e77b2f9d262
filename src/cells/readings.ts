/**
 * The texts to parse of a cell. Blanking keeps every offset, so positions that the parser reports are valid in the
 * original. A `...` line becomes a comment instead of spaces, which would belong to a block of text before it.
 */
import type { Conflict, Stretch } from './conflicts.ts';
import type { Extent } from './extents.ts';
import { isIdle, lineEnd, nextLine } from './lines.ts';

/** The readings of one cell, and whether the cell is empty. @param conflicts those that overlap the cell */
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

/** The usual cell: a `---` at its beginning, or none, and no other marker. */
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
 * The sides that the cell contains: those it has lines of, or both if it contains the whole conflict (one of them may
 * have deleted its lines). If both sides have only comments there, one reading is enough.
 */
function sidesWithin(text: string, extent: Extent, conflicts: readonly Conflict[]): Side[] {
  const complete = conflicts.filter(({ sides }) => sides);
  const shown = (['ours', 'theirs'] as const).filter((side) =>
    complete.some((conflict) => isWithin(conflict, extent) || overlap(conflict.sides![side], extent) !== undefined),
  );
  const hasContent = complete.some(({ sides }) =>
    [sides!.ours, sides!.theirs].some((side) => {
      const part = overlap(side, extent);
      return part && !isBlank(text, part.from, part.to);
    }),
  );
  return hasContent ? shown : shown.slice(0, 1);
}

function isWithin(inner: Stretch, outer: Stretch): boolean {
  return inner.from >= outer.from && inner.to <= outer.to;
}

function overlap(a: Stretch, b: Stretch): Stretch | undefined {
  const [from, to] = [Math.max(a.from, b.from), Math.min(a.to, b.to)];
  return from < to ? { from, to } : undefined;
}

/** `---` without the rest of its line, the whole line of `...`, and lines before `---` that are not parsed. */
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
  /** replaces the first character, if not by a space */
  readonly sign?: '#';
}

/** The cell's text with these spans replaced by spaces, line ends excepted. */
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

/** Whether the lines contain only blanks and comments. */
function isBlank(text: string, from = 0, to = text.length): boolean {
  for (let at = from; at < to; at = nextLine(text, at)) if (!isIdle(text, at)) return false;
  return true;
}
