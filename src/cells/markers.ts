/**
 * The lines that divide a file: `---`, `...`, and those that a version control system leaves in a conflict. They are
 * looked for by their text after a line feed, which is several times faster than looking at every line.
 */
import { afterMark, nextLine } from './lines.ts';

export type MarkerKind = '---' | '...' | '<<<<<<<' | '|||||||' | '=======' | '>>>>>>>';

export interface Marker {
  readonly kind: MarkerKind;
  readonly start: number;
  /** where the next line begins */
  readonly next: number;
}

/** More than any hand-written log holds; the search stops there, so that a hostile text costs little. */
export const MOST_MARKERS = 100_000;

/** Markers of one of the kinds, in file order; of each kind no more than one above the most. */
export function markersIn(text: string, kinds: readonly MarkerKind[]): Marker[] {
  return kinds.flatMap((kind) => markersOf(text, kind)).sort((a, b) => a.start - b.start);
}

function markersOf(text: string, kind: MarkerKind): Marker[] {
  const found: Marker[] = [];
  const first = afterMark(text);
  if (text.startsWith(kind, first) && endsWord(text, first + kind.length)) {
    found.push({ kind, start: first, next: nextLine(text, first) });
  }
  const searched = `\n${kind}`;
  for (
    let at = text.indexOf(searched);
    at >= 0 && found.length <= MOST_MARKERS;
    at = text.indexOf(searched, at + kind.length)
  ) {
    const start = at + 1;
    if (endsWord(text, start + kind.length)) found.push({ kind, start, next: nextLine(text, start + kind.length) });
  }
  return found;
}

/** A marker is followed by a space, a tab, or its line's end. */
function endsWord(text: string, at: number): boolean {
  const next = text[at];
  return (
    next === undefined || next === ' ' || next === '\t' || next === '\n' || (next === '\r' && text[at + 1] === '\n')
  );
}
