/**
 * Splits a text again after an edit: only the cells that the edit touched are split, and the others keep their texts,
 * by which later layers cache them. Tests compare the result with splitting the whole text.
 */
import { cellAround } from './cell-around.ts';
import { detached } from './detached.ts';
import type { Cell, CellProblem, Split } from './cell.ts';
import { splitCells } from './split.ts';

/** A span of the old text that was replaced by `length` characters. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly length: number;
}

/** Lines with an effect beyond their own cell: with one of them the whole text is split. */
const FAR_REACHING = /^(?:\.\.\.|<<<<<<<|\|\|\|\|\|\|\||=======|>>>>>>>|%)/m;
/** With more problems the whole text is split, because their number is limited. */
const FEW = 50;

/** @param before the split of the text before the edit */
export function resplit(before: Split, text: string, edit: Edit): Split {
  const { cells, head } = before;
  const first = Math.max(0, cellAround(cells, edit.start - MARKER));
  const next = cellAround(cells, edit.end + MARKER) + 1;
  const inner = cells.slice(first, next);
  const end = cells[next]?.start ?? text.length - edit.length + edit.end - edit.start;
  const isFar =
    inner.length === 0 ||
    before.tail !== '' ||
    before.problems.length > FEW ||
    before.problems.some(({ code }) => code === 'cells.conflict' || code === 'cells.limit');
  // The first cell needs no `---`, and is split together with the head.
  if (isFar || !cells.slice(Math.max(1, first), next + 1).every(({ text: of }) => opens(of))) return splitCells(text);
  const moved = edit.length - (edit.end - edit.start);
  const from = first === 0 ? 0 : inner[0]!.start;
  const half = detached(text.slice(from, end + moved));
  if (FAR_REACHING.test(half) || (first > 0 && !opens(half)) || inner.some(({ text: of }) => FAR_REACHING.test(of)))
    return splitCells(text);
  const split = splitCells(half);
  if (split.cells.length === 0 || (first > 0 && split.head !== '') || split.tail !== '') return splitCells(text);
  const lines = linesIn(half) - inner.reduce((sum, cell) => sum + linesIn(cell.text), first === 0 ? linesIn(head) : 0);
  return {
    head: first === 0 ? split.head : head,
    cells: [
      ...cells.slice(0, first),
      ...split.cells.map((cell) => shifted(cell, from, first === 0 ? 0 : inner[0]!.line)),
      ...(moved === 0 && lines === 0
        ? cells.slice(next)
        : cells.slice(next).map((cell) => shifted(cell, moved, lines))),
    ],
    tail: before.tail,
    problems: [
      ...before.problems.flatMap((problem) =>
        problem.start < from ? [problem] : problem.start >= end ? [placed(problem, moved)] : [],
      ),
      ...split.problems.map((problem) => placed(problem, from)),
    ].sort(byCode),
  };
}

/** An edit next to a marker can create or destroy it. */
const MARKER = 4;

function opens(text: string): boolean {
  return /^---(?:[ \t\n]|\r\n|$)/.test(text);
}

function linesIn(text: string): number {
  let lines = 0;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  return lines;
}

function shifted(cell: Cell, by: number, lines: number): Cell {
  return { start: cell.start + by, line: cell.line + lines, text: cell.text, readings: cell.readings };
}

function placed(problem: CellProblem, by: number): CellProblem {
  return { ...problem, start: problem.start + by, end: problem.end + by };
}

function byCode(one: CellProblem, other: CellProblem): number {
  return one.code === other.code ? one.start - other.start : one.code < other.code ? -1 : 1;
}
