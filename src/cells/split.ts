/**
 * Splits a file's text into cells by scanning its lines, without parsing YAML: an unclosed quote or bracket stays in
 * its cell, and one edit affects one cell. Linear in the text, with bounded output.
 */
import type { Cell, CellCode, CellProblem, Split } from './cell.ts';
import { CONFLICT_MARKERS, conflictsOf, missingMarkers, type Conflict } from './conflicts.ts';
import { extentsOf, type Extent, type Extents } from './extents.ts';
import { isIdle, lineEnd } from './lines.ts';
import { markersIn, MOST_MARKERS } from './markers.ts';
import { readingsOf } from './readings.ts';

/** A larger text is no hand-written log: it is kept but not parsed. */
const LARGEST_FILE = 32 * 1024 * 1024;
const LARGEST_CELL = 1_000_000;

const MOST_PROBLEMS = 100;

/** Never throws. Problems: `cells.*`. */
export function splitCells(text: string): Split {
  if (text.length > LARGEST_FILE) return unread(text, moreThan(LARGEST_FILE, 'characters'));
  const separators = markersIn(text, ['---', '...']);
  const conflictMarkers = markersIn(text, CONFLICT_MARKERS);
  const markers = separators.length + conflictMarkers.length;
  if (markers > MOST_MARKERS) return unread(text, moreThan(MOST_MARKERS, 'marker lines'));
  const conflicts = conflictsOf(conflictMarkers);
  const extents = extentsOf(text, separators, conflicts);
  return new Splitter(text, conflicts, extents).split();
}

function unread(text: string, facts: { what: string }): Split {
  return {
    head: '',
    cells: [],
    tail: text,
    problems: [{ code: 'cells.limit', start: 0, end: lineEnd(text, 0), facts }],
  };
}

function moreThan(most: number, of: string): { what: string } {
  return { what: `more than ${most} ${of}` };
}

class Splitter {
  private readonly text: string;
  private readonly conflicts: readonly Conflict[];
  private readonly extents: Extents;
  private readonly problems = new Map<CellCode, CellProblem[]>();
  private firstConflict = 0;
  private line = 0;
  private counted = 0;

  constructor(text: string, conflicts: readonly Conflict[], extents: Extents) {
    this.text = text;
    this.conflicts = conflicts;
    this.extents = extents;
  }

  split(): Split {
    const { text, extents } = this;
    this.loneReturns();
    for (const conflict of this.conflicts) this.conflict(conflict);
    for (const at of extents.prelude) this.directive(at);
    const cells = extents.cells.map((extent) => this.cell(extent));
    const problems = [...this.problems.values()].flat();
    return { head: text.slice(0, extents.headEnd), cells, tail: text.slice(extents.tailStart), problems };
  }

  private cell(extent: Extent): Cell {
    const { from, to, opener, stray, closer } = extent;
    const place = { start: from, line: this.lineOf(from), text: this.text.slice(from, to) };
    for (const at of extent.prelude) this.directive(at);
    if (stray !== undefined) this.report('cells.afterEnd', stray, lineEnd(this.text, stray), {});
    if (closer !== undefined && !isIdle(this.text, closer + 3)) {
      this.report('cells.afterEnd', closer + 3, lineEnd(this.text, closer), {});
    }
    const sign = opener ?? stray ?? from;
    if (to - from > LARGEST_CELL) {
      this.report('cells.limit', sign, lineEnd(this.text, sign), moreThan(LARGEST_CELL, 'characters'));
      return { ...place, readings: [] };
    }
    const { readings, empty } = readingsOf(this.text, extent, this.conflictsAt(extent));
    if (empty) this.report('cells.empty', sign, lineEnd(this.text, sign), {});
    return { ...place, readings };
  }

  /** The conflicts that overlap a cell; cells are visited in file order. */
  private conflictsAt({ from, to }: Extent): readonly Conflict[] {
    while (this.firstConflict < this.conflicts.length && this.conflicts[this.firstConflict]!.to <= from)
      this.firstConflict++;
    let end = this.firstConflict;
    while (end < this.conflicts.length && this.conflicts[end]!.from < to) end++;
    return this.conflicts.slice(this.firstConflict, end);
  }

  private lineOf(offset: number): number {
    for (let at = this.text.indexOf('\n', this.counted); at >= 0 && at < offset; at = this.text.indexOf('\n', at + 1)) {
      this.line++;
      this.counted = at + 1;
    }
    return this.line;
  }

  private loneReturns(): void {
    for (let at = this.text.indexOf('\r'); at >= 0; at = this.text.indexOf('\r', at + 1)) {
      if (this.text[at + 1] !== '\n') this.report('cells.loneReturn', at, at + 1, {});
    }
  }

  private conflict(conflict: Conflict): void {
    if (this.isFull('cells.conflict')) return;
    const label = (kind: string) => {
      const marker = conflict.markers.find((candidate) => candidate.kind === kind);
      return marker ? this.text.slice(marker.start + kind.length, lineEnd(this.text, marker.start)).trim() : '';
    };
    const missing = missingMarkers(conflict).join(' ');
    const facts = { ours: label('<<<<<<<'), theirs: label('>>>>>>>'), ...(missing && { missing }) };
    this.report('cells.conflict', conflict.from, lineEnd(this.text, conflict.from), facts);
  }

  private directive(at: number): void {
    if (this.text[at] !== '%' || this.isFull('cells.directive')) return;
    const directive = this.text.slice(at, lineEnd(this.text, at));
    if (!/^%YAML[ \t]+1\.2[ \t]*(?:[ \t]#.*)?$/.test(directive)) {
      this.report('cells.directive', at, at + directive.length, { directive: directive.slice(0, 60).trim() });
    }
  }

  private isFull(code: CellCode): boolean {
    return (this.problems.get(code)?.length ?? 0) >= MOST_PROBLEMS;
  }

  private report(code: CellCode, start: number, end: number, facts: Record<string, string>): void {
    const same = this.problems.get(code) ?? [];
    if (this.isFull(code)) return;
    this.problems.set(code, same);
    same.push({ code, start, end, facts });
  }
}
