/**
 * Finds where cells begin and end. `---` opens a cell, `...` closes it. Before the first cell and after a closed one
 * only comments, blank lines and directives are allowed; any other line there opens a cell too, so that no text is
 * lost.
 */
import type { Conflict, Stretch } from './conflicts.ts';
import { textStart, isIdle, nextLine } from './lines.ts';
import type { Marker } from './markers.ts';

export interface Extent extends Stretch {
  /** offset of its `---`, if any */
  readonly opener?: number;
  /** offset of its `...`, if any */
  readonly closer?: number;
  /** lines before its `---` that are not parsed: directives after an earlier cell, a `...` that closes no cell */
  readonly prelude: readonly number[];
  /** offset of its text, if it follows a `...` without a `---` */
  readonly stray?: number;
}

export interface Extents {
  readonly cells: readonly Extent[];
  readonly headEnd: number;
  readonly tailStart: number;
  /** such lines in the head and the tail */
  readonly prelude: readonly number[];
}

/** @param separators the file's `---` and `...` lines */
export function extentsOf(text: string, separators: readonly Marker[], conflicts: readonly Conflict[]): Extents {
  const skipped = skippedLines(conflicts);
  const markers = separators.filter(({ start }) => !covers(skipped, start));
  const outside = new Outside(text, skipped);
  const cells: Extent[] = [];
  let open: Omit<Extent, 'to'> | undefined;
  for (const { kind, start, next } of [...markers, { kind: undefined, start: text.length, next: text.length }]) {
    open ??= outside.stray(start);
    const closer = kind === '...' ? start : undefined;
    if (open) cells.push({ ...open, to: closer === undefined ? start : next, ...(closer !== undefined && { closer }) });
    if (kind === '---') open = open ? { from: start, opener: start, prelude: [] } : outside.opened(start);
    else if (open) open = outside.closed(next);
    else if (closer !== undefined) outside.unmatchedCloser(start, next);
  }
  const headEnd = cells[0]?.from ?? text.length;
  return { cells, headEnd, tailStart: cells.at(-1)?.to ?? text.length, prelude: outside.loose() };
}

/** The text before the first cell, or after a `...`: it belongs to the following cell. */
class Outside {
  private readonly text: string;
  private readonly skipped: readonly Stretch[];
  private from = 0;
  private looked: number;
  private isHead = true;
  private prelude: number[] = [];
  private head: readonly number[] = [];

  constructor(text: string, skipped: readonly Stretch[]) {
    this.text = text;
    this.skipped = skipped;
    this.looked = textStart(text);
  }

  /** The cell that a line before `to` opens without a `---`, if any. */
  stray(to: number): Omit<Extent, 'to'> | undefined {
    let at = this.looked;
    for (; at < to; at = nextLine(this.text, at)) {
      if (covers(this.skipped, at)) continue;
      if (this.text[at] === '%') this.prelude.push(at);
      else if (!isIdle(this.text, at)) break;
    }
    this.looked = at;
    if (at >= to) return undefined;
    const { isHead } = this;
    const cell = this.begun(at);
    return isHead ? cell : { ...cell, stray: at };
  }

  /** The cell that a `---` opens. */
  opened(opener: number): Omit<Extent, 'to'> {
    return { ...this.begun(opener), opener };
  }

  closed(next: number): undefined {
    [this.from, this.looked] = [next, next];
  }

  /** A `...` that closes no cell. */
  unmatchedCloser(start: number, next: number): void {
    this.prelude.push(start);
    this.looked = next;
  }

  loose(): readonly number[] {
    return [...this.head, ...this.prelude];
  }

  private begun(at: number): Omit<Extent, 'to'> {
    const { isHead, prelude } = this;
    this.isHead = false;
    this.prelude = [];
    if (!isHead) return { from: this.from, prelude };
    this.head = prelude;
    return { from: at, prelude: [] };
  }
}

/** Lines that neither open nor separate cells: conflict markers, and the common base of both sides. */
function skippedLines(conflicts: readonly Conflict[]): Stretch[] {
  return conflicts.flatMap(({ markers, sides }) =>
    markers.map(({ kind, start, next }) => ({ from: start, to: kind === '|||||||' && sides ? sides.base.to : next })),
  );
}

/** Whether one of the spans, which are sorted and do not overlap, covers an offset. */
function covers(stretches: readonly Stretch[], offset: number): boolean {
  let [low, high] = [0, stretches.length];
  while (low < high) {
    const half = (low + high) >> 1;
    if (stretches[half]!.to <= offset) low = half + 1;
    else high = half;
  }
  return low < stretches.length && stretches[low]!.from <= offset;
}
