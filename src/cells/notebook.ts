/**
 * A file as a notebook and back. An editor gives the text of a cell back with one kind of line end and without a byte
 * order mark; so each cell carries its original along, and what does not differ from it but by that is written as it
 * was, byte for byte. What was edited keeps the original's bytes before and after the edit.
 */

import { extentsOf } from './extents.ts';
import { isIdle, lineEndOf } from './lines.ts';
import { markersIn } from './markers.ts';
import { noteCell, noteIn } from './note.ts';
import { splitCells } from './split.ts';

export interface NotebookCell {
  readonly kind: 'cell' | 'note';
  /** As the editor shows it: without the `---` line that opens it and the line end that closes it. */
  readonly text: string;
  /** Absent for a cell that was put in. */
  readonly origin?: CellOrigin | undefined;
}

export interface CellOrigin {
  /** Which cell of the file it was. */
  readonly index: number;
  readonly text: string;
}

export interface NotebookText {
  readonly cells: readonly NotebookCell[];
  readonly origin: FileOrigin;
}

/** What of the file is in no cell. */
export interface FileOrigin {
  readonly head: string;
  readonly tail: string;
  readonly count: number;
  readonly end: '\n' | '\r\n';
}

export function toNotebook(text: string): NotebookText {
  const { head, cells, tail } = splitCells(text);
  return {
    cells: cells.map((cell, index): NotebookCell => ({ ...shown(cell.text), origin: { index, text: cell.text } })),
    origin: { head, tail, count: cells.length, end: lineEndOf(text) },
  };
}

export function fromNotebook({ cells, origin }: NotebookText): string {
  let result = origin.head;
  let last: { readonly text: string; readonly origin?: CellOrigin | undefined } | undefined;
  for (const cell of cells) {
    const text = written(cell, origin, last === undefined);
    const follows = follow(last?.origin, cell.origin);
    result += follows ? text : joint(last?.text, text, origin) + text;
    last = { text, origin: cell.origin };
  }
  if (origin.tail === '' || !last || (last.origin?.index === origin.count - 1 && last.origin.text === last.text)) return result + origin.tail;
  return result + (closes(last.text) ? '' : `${missingEnd(last.text, origin.end)}...${origin.end}`) + origin.tail;
}

/** Whether two cells, or the head and a cell, stand as they stood, so that nothing is needed between them. */
function follow(before: CellOrigin | undefined, own: CellOrigin | undefined): boolean {
  if (!own) return false;
  return before ? own.index === before.index + 1 : own.index === 0;
}

/** What has to stand between the text of a cell, or the head, and that of the next. */
function joint(before: string | undefined, text: string, { head, end }: FileOrigin): string {
  if (before === undefined) return missingEnd(head.replace(/^\ufeff/, ''), end) + (!opens(text) && (isDirected(head) || isIdle(text, 0)) ? `---${end}` : '');
  const ended = missingEnd(before, end);
  if (isDirected(text) && !closes(before)) return `${ended}...${end}`;
  return ended + (opens(text) || closes(before) ? '' : `---${end}`);
}

function missingEnd(text: string, end: string): string {
  return text === '' || text.endsWith('\n') ? '' : end;
}

/** The cell's own bytes where they say the same; else the edited text between what is left of them. */
function written({ kind, text, origin }: NotebookCell, { end, count }: FileOrigin, isFirst: boolean): string {
  const now = unified(text);
  if (!origin) return restored(kind === 'note' ? noteCell(now) : now, end) + end;
  const was = shown(origin.text);
  const { before, body, after } = parts(origin.text);
  const opener = isFirst && origin.index > 0 && !isIdle(body, 0) ? '' : before;
  if (was.kind === kind && was.text === now) return opener + body + after;
  const edited = kind === 'note' ? noteCell(now) : now;
  const ownEnd = body.includes('\n') || after !== '' ? lineEndOf(body + after) : end;
  // A last cell without an end of line stays so.
  const close = after === '' && origin.index < count - 1 && edited !== '' && !edited.endsWith('\n') ? end : after;
  return opener + between(body, edited, ownEnd) + close;
}

interface Parts {
  readonly before: string;
  readonly body: string;
  readonly after: string;
}

/** The byte order mark and the bare `---` line that open it, if any do, and the line end that closes it. */
function parts(text: string): Parts {
  const before = /^\ufeff?(?:---[ \t]*\r?\n\ufeff?)?/.exec(text)![0];
  const rest = text.slice(before.length);
  const after = /\r?\n$/.exec(rest)?.[0] ?? '';
  return { before, body: rest.slice(0, rest.length - after.length), after };
}

function shown(text: string): Pick<NotebookCell, 'kind' | 'text'> {
  const body = unified(parts(text).body);
  const note = noteIn(body);
  return note === undefined ? { kind: 'cell', text: body } : { kind: 'note', text: note };
}

/** As an editor gives it back. */
function unified(text: string): string {
  return text.replace(/\r\n?/g, '\n');
}

function restored(text: string, end: string): string {
  return end === '\n' ? text : text.replaceAll('\n', end);
}

/** An edited text, with the original's own bytes before and after what was edited, so that its line ends stay as they were. */
function between(original: string, edited: string, end: string): string {
  const was = original.match(/\r\n|[^]/g) ?? [];
  const same = (one: string | undefined, other: string | undefined) => one !== undefined && unified(one) === other;
  let [head, tail] = [0, 0];
  while (head < edited.length && same(was[head], edited[head])) head++;
  while (tail < Math.min(was.length, edited.length) - head && same(was.at(-1 - tail), edited.at(-1 - tail))) tail++;
  return was.slice(0, head).join('') + restored(edited.slice(head, edited.length - tail), end) + was.slice(was.length - tail).join('');
}

/** Whether a text begins with a `---` line, comments, blank lines and directives apart. */
function opens(text: string): boolean {
  return extents(text)[0]?.opener !== undefined;
}

/** Whether a text ends with a `...` line. */
function closes(text: string): boolean {
  return extents(text).at(-1)?.closer !== undefined;
}

function extents(text: string) {
  return extentsOf(text, markersIn(text, ['---', '...']), []).cells;
}

/** Whether it begins with a directive, which may stand only where no cell is open. */
function isDirected(text: string): boolean {
  return /^\ufeff?(?:[ \t]*(?:#.*)?\r?\n)*%/.test(text);
}

