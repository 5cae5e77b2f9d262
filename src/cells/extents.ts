/**
 * Where cells begin and end. `---` opens one, `...` closes one; before the first and behind a closed one only comments,
 * blank lines and directives may stand, and the first other line there opens a cell too, so that nothing is lost.
 */
import type { Conflict, Stretch } from './conflicts.ts';
import { afterMark, isIdle, nextLine } from './lines.ts';
import type { Marker } from './markers.ts';

export interface Extent extends Stretch {
  /** where its `---` stands, when it has one */
  readonly opener?: number;
  /** where its `...` stands, when it has one */
  readonly closer?: number;
  /** lines before its `---` that are not parsed: directives that follow an earlier cell, a `...` that closes nothing */
  readonly prelude: readonly number[];
  /** where its text begins, when it follows a `...` without a `---` */
  readonly stray?: number;
}

export interface Extents {
  readonly cells: readonly Extent[];
  readonly headEnd: number;
  readonly tailStart: number;
  /** such lines of the head and the tail */
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
    else if (closer !== undefined) outside.passed(start, next);
  }
  const headEnd = cells[0]?.from ?? text.length;
  return { cells, headEnd, tailStart: cells.at(-1)?.to ?? text.length, prelude: outside.loose() };
}

/** The stretch before the first cell, or behind a `...`: what stands there belongs to the cell that follows it. */
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
    this.looked = afterMark(text);
  }

  /** The cell that a line before `to` opens without a `---`, if one does. */
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

  /** The cell of a `---`. */
  opened(opener: number): Omit<Extent, 'to'> {
    return { ...this.begun(opener), opener };
  }

  closed(next: number): undefined {
    [this.from, this.looked] = [next, next];
  }

  /** A `...` that closes nothing. */
  passed(start: number, next: number): void {
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

/** Lines that neither open nor divide cells: the markers of conflicts, and what both sides began from. */
function skippedLines(conflicts: readonly Conflict[]): Stretch[] {
  return conflicts.flatMap(({ markers, sides }) =>
    markers.map(({ kind, start, next }) => ({ from: start, to: kind === '|||||||' && sides ? sides.base.to : next })),
  );
}

/** Whether one of the stretches, which are in order and apart, covers an offset. */
function covers(stretches: readonly Stretch[], offset: number): boolean {
  let [low, high] = [0, stretches.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (stretches[middle]!.to <= offset) low = middle + 1;
    else high = middle;
  }
  return low < stretches.length && stretches[low]!.from <= offset;
}
