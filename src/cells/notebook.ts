/**
 * Converts a file to a notebook and back. An editor returns the text of a cell with one kind of line end and without a
 * byte order mark; so each cell keeps its original text, and one that differs only in those is written back byte for
 * byte. An edited cell keeps the original bytes before and after the edit.
 */

import { textStart, lineEndOf } from './lines.ts';
import { noteCell, noteIn } from './note.ts';
import { closes, endBehind, missingEnd, opens, separatorOf } from './separator.ts';
import { splitCells } from './split.ts';

/** A cell as the editor's notebook has it. */
export interface NotebookCell {
  readonly kind: 'cell' | 'note';
  /** As the editor shows it: without the opening `---` line and the last line end. */
  readonly text: string;
  /** Absent for an inserted cell. */
  readonly origin?: CellOrigin | undefined;
}

/** The cell of the file from which a notebook cell was made, with its exact text. */
export interface CellOrigin {
  /** Its index in the file. */
  readonly index: number;
  readonly text: string;
}

/** A file as a notebook. */
export interface NotebookText {
  readonly cells: readonly NotebookCell[];
  readonly origin: FileOrigin;
}

/** The parts of the file outside the cells. */
export interface FileOrigin {
  readonly head: string;
  readonly tail: string;
  readonly count: number;
  readonly end: '\n' | '\r\n';
}

/** Converts a file to a notebook. Never fails; a file without cells gives none. */
export function toNotebook(text: string): NotebookText {
  const { head, cells, tail } = splitCells(text);
  return {
    cells: cells.map((cell, index): NotebookCell => ({ ...shown(cell.text), origin: { index, text: cell.text } })),
    origin: { head, tail, count: cells.length, end: lineEndOf(text) },
  };
}

/** Every cell stays a cell: none is merged with another or lost, whatever was inserted, moved or edited. */
export function fromNotebook({ cells, origin }: NotebookText): string {
  const { head, tail, end } = origin;
  let result = head;
  let last: Written | undefined;
  for (const cell of cells) {
    const own = { text: written(cell, origin), origin: cell.origin };
    const text = last ? behind(last, own, end) : first(own, origin);
    result += text;
    last = { ...own, text };
  }
  if (tail === '' || !last || closes(last.text)) return result + tail;
  return `${result}${missingEnd(last.text, end)}...${end}${tail}`;
}

interface Written {
  readonly text: string;
  readonly origin?: CellOrigin | undefined;
}

function behind(last: Written, own: Written, end: string): string {
  const ended = missingEnd(last.text, end);
  return ended + separatorOf(last.text + ended, own.text, end, isBare(last, own)) + own.text;
}

/** Whether it had no `---` after the same cell, or at the top: then it needs none now. */
function isBare(last: Written | undefined, { origin }: Written): boolean {
  if (!origin || (last && !last.origin)) return false;
  return origin.index === (last?.origin ? last.origin.index + 1 : 0) && !opens(origin.text);
}

/** The first cell gets no `---` unless part of it would become the file's head, as lines above its own `---` would. */
function first(own: Written, { head, end }: FileOrigin): string {
  const { text, origin } = own;
  if (origin?.index === 0 && origin.text === text) return text;
  const ended = missingEnd(head.replace(/^\ufeff/, ''), end);
  const needed = isDirected(head) && !isBare(undefined, own);
  const bare = origin?.index === 0 ? text : text.replace(OPENER, '');
  if (!needed && beginsBelow(head + ended, bare)) return ended + bare;
  return `${ended}${opens(text) ? '' : `---${end}`}${text}`;
}

/** Whether the whole text forms the first cell or cells of a file. */
function beginsBelow(head: string, text: string): boolean {
  const file = head + text;
  return splitCells(file).cells[0]?.start === Math.max(head.length, textStart(file));
}

/** The cell's original bytes if its text is unchanged; else the edited text with the original bytes around the edit. */
function written({ kind, text, origin }: NotebookCell, { end, count }: FileOrigin): string {
  const now = unified(text);
  const edited = kind === 'note' ? noteCell(now) : now;
  if (!origin) return restored(edited, end) + end;
  const was = shown(origin.text);
  if (was.kind === kind && was.text === now) return origin.text;
  const { before, body, after } = parts(origin.text);
  const ownEnd = body.includes('\n') || after !== '' ? lineEndOf(body + after) : end;
  const bytes = between(body, edited, ownEnd);
  // A typed opener replaces the hidden one.
  const marks = before.replace(OPENER, '');
  const opener = opens(marks + bytes) ? marks : before;
  // A last cell without a line end keeps none.
  const isUnended = after === '' && (bytes === '' || (origin.index === count - 1 && !bytes.endsWith('\n')));
  return opener + bytes + (isUnended ? '' : endBehind(bytes, after || end));
}

interface Parts {
  readonly before: string;
  readonly body: string;
  readonly after: string;
}

/** A `---` line without further text. */
const OPENER = /^---[ \t]*\r?\n/;

/** The opening `---` line, if any, with byte order marks, which no editor shows; the body; and the last line end. */
function parts(text: string): Parts {
  const before = /^(?:---[ \t]*\r?\n)?\ufeff*/.exec(text)![0];
  const rest = text.slice(before.length);
  const after = /\r?\n$/.exec(rest)?.[0] ?? '';
  return { before, body: rest.slice(0, rest.length - after.length), after };
}

function shown(text: string): Pick<NotebookCell, 'kind' | 'text'> {
  const body = unified(parts(text).body);
  const note = noteIn(body);
  return note === undefined ? { kind: 'cell', text: body } : { kind: 'note', text: note };
}

/** With the line ends that an editor returns. */
function unified(text: string): string {
  return text.replace(/\r\n?/g, '\n');
}

function restored(text: string, end: string): string {
  return end === '\n' ? text : text.replaceAll('\n', end);
}

/** The edited text, with the original bytes before and after the edit, so that their line ends are kept. */
function between(original: string, edited: string, end: string): string {
  const was = original.match(/\r\n|[^]/g) ?? [];
  const same = (one: string | undefined, other: string | undefined) => one !== undefined && unified(one) === other;
  let [head, tail] = [0, 0];
  while (head < edited.length && same(was[head], edited[head])) head++;
  while (tail < Math.min(was.length, edited.length) - head && same(was.at(-1 - tail), edited.at(-1 - tail))) tail++;
  return (
    was.slice(0, head).join('') +
    restored(edited.slice(head, edited.length - tail), end) +
    was.slice(was.length - tail).join('')
  );
}

/** Whether it begins with a directive, which is allowed only where no cell is open. */
function isDirected(text: string): boolean {
  return /^\ufeff?(?:[ \t]*(?:#.*)?\r?\n)*%/.test(text);
}
