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
  return joined(
    cells.map((cell) => ({ ...written(cell, origin), origin: cell.origin })),
    origin,
  ).text;
}

/** The file that a notebook forms, and where its cells are in it. */
export interface JoinedCells {
  readonly text: string;
  readonly cells: readonly {
    /** Where the cell begins, its `---` line included. */
    readonly from: number;
    /** Where the text begins that the editor shows of it. */
    readonly start: number;
  }[];
}

/** The same file as `fromNotebook`, but with the text of each cell as the editor has it: a line end may differ. */
export function joinNotebook({ cells, origin }: NotebookText): JoinedCells {
  return joined(
    cells.map((cell) => {
      const { hidden, body, after } = written(cell, origin);
      return { hidden, body: cell.kind === 'note' ? body : cell.text, after, origin: cell.origin };
    }),
    origin,
  );
}

function joined(cells: readonly Written[], origin: FileOrigin): JoinedCells {
  const { head, tail, end } = origin;
  let text = head;
  let last: OwnText | undefined;
  const places: JoinedCells['cells'][number][] = [];
  for (const cell of cells) {
    const own = { text: cell.hidden + cell.body + cell.after, origin: cell.origin };
    const { ended, separator, dropped } = last ? behind(last, own, end) : first(own, origin);
    const from = text.length + ended.length;
    places.push({ from, start: Math.max(0, from + separator.length + cell.hidden.length - dropped) });
    const added = ended + separator + own.text.slice(dropped);
    text += added;
    last = { text: added, origin: cell.origin };
  }
  if (tail === '' || !last || closes(last.text)) return { text: text + tail, cells: places };
  return { text: `${text}${missingEnd(last.text, end)}...${end}${tail}`, cells: places };
}

/** The text of a cell in the file: what the editor does not show before it, its body, and its last line end. */
interface Written extends Parts {
  readonly origin?: CellOrigin | undefined;
}

interface OwnText {
  readonly text: string;
  readonly origin?: CellOrigin | undefined;
}

/** What is put before the text of a cell, and how much of its beginning is left out. */
interface Put {
  readonly ended: string;
  readonly separator: string;
  readonly dropped: number;
}

function behind(last: OwnText, own: OwnText, end: string): Put {
  const ended = missingEnd(last.text, end);
  return { ended, separator: separatorOf(last.text + ended, own.text, end, isBare(last, own)), dropped: 0 };
}

/** Whether it had no `---` after the same cell, or at the top: then it needs none now. */
function isBare(last: OwnText | undefined, { origin }: OwnText): boolean {
  if (!origin || (last && !last.origin)) return false;
  return origin.index === (last?.origin ? last.origin.index + 1 : 0) && !opens(origin.text);
}

/** The first cell gets no `---` unless part of it would become the file's head, as lines above its own `---` would. */
function first(own: OwnText, { head, end }: FileOrigin): Put {
  const { text, origin } = own;
  if (origin?.index === 0 && origin.text === text) return { ended: '', separator: '', dropped: 0 };
  const ended = missingEnd(head.replace(/^\ufeff/, ''), end);
  const needed = isDirected(head) && !isBare(undefined, own);
  const dropped = origin?.index === 0 ? 0 : (OPENER.exec(text)?.[0].length ?? 0);
  if (!needed && beginsBelow(head + ended, text.slice(dropped))) return { ended, separator: '', dropped };
  return { ended, separator: opens(text) ? '' : `---${end}`, dropped: 0 };
}

/** Whether the whole text forms the first cell or cells of a file. */
function beginsBelow(head: string, text: string): boolean {
  const file = head + text;
  return splitCells(file).cells[0]?.start === Math.max(head.length, textStart(file));
}

/** The cell's original bytes if its text is unchanged; else the edited text with the original bytes around the edit. */
function written({ kind, text, origin }: NotebookCell, { end, count }: FileOrigin): Parts {
  const now = unified(text);
  const edited = kind === 'note' ? noteCell(now) : now;
  if (!origin) return { hidden: '', body: restored(edited, end), after: end };
  const was = shown(origin.text);
  const { hidden, body, after } = parts(origin.text);
  if (was.kind === kind && was.text === now) return { hidden, body, after };
  const ownEnd = body.includes('\n') || after !== '' ? lineEndOf(body + after) : end;
  const bytes = between(body, edited, ownEnd);
  // A typed opener replaces the hidden one.
  const marks = hidden.replace(OPENER, '');
  const opener = opens(marks + bytes) ? marks : hidden;
  // A last cell without a line end keeps none.
  const isUnended = after === '' && (bytes === '' || (origin.index === count - 1 && !bytes.endsWith('\n')));
  return { hidden: opener, body: bytes, after: isUnended ? '' : endBehind(bytes, after || end) };
}

interface Parts {
  readonly hidden: string;
  readonly body: string;
  readonly after: string;
}

/** A `---` line without further text. */
const OPENER = /^---[ \t]*\r?\n/;

/** The opening `---` line, if any, with byte order marks, which no editor shows; the body; and the last line end. */
function parts(text: string): Parts {
  const hidden = /^(?:---[ \t]*\r?\n)?\ufeff*/.exec(text)![0];
  const rest = text.slice(hidden.length);
  const after = /\r?\n$/.exec(rest)?.[0] ?? '';
  return { hidden, body: rest.slice(0, rest.length - after.length), after };
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
