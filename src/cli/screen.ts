/** Lines of a small screen: pieces of text at their columns, in ASCII, coloured after they were measured. */
import { harmless } from '../model/index.ts';
import type { Paint, Style } from './paint.ts';
import { wrapped } from './wrap.ts';

/** Text at a column, from 0. */
export interface Piece {
  readonly text: string;
  readonly at: number;
  readonly style?: Style;
}

/** Where a piece that did not fit beside the rest is put, and the room from which on it is wrapped in its column. */
const INDENT = 4;
const ROOM = 24;

/** Pieces in one line; one that does not fit is wrapped in its column, or on a line of its own if there is no room. */
export function lineOf(pieces: readonly Piece[], width: number, paint: Paint): string[] {
  const lines: { text: string; length: number }[] = [];
  for (const { text, at, style } of pieces) {
    if (text === '') continue;
    const painted = (words: string) => (style === undefined ? words : paint(style, words));
    const last = lines.at(-1);
    const column = last ? Math.max(at, last.length + 1) : at;
    const isBeside = column + text.length <= width || width - column >= ROOM;
    const indent = last && !isBeside ? INDENT : column;
    const [first = '', ...rest] = indent + text.length <= width ? [text] : wrapped(text, '', width - indent);
    if (last && isBeside) {
      last.text += ' '.repeat(column - last.length) + painted(first);
      last.length = column + first.length;
    } else lines.push({ text: ' '.repeat(indent) + painted(first), length: indent + first.length });
    for (const words of rest) lines.push({ text: ' '.repeat(indent) + painted(words), length: indent + words.length });
  }
  return lines.map(({ text }) => text);
}

const SPELT: Readonly<Record<string, string>> = {
  '±': '+-',
  '’': "'",
  '‘': "'",
  '“': '"',
  '”': '"',
  '–': '-',
  '—': '-',
  '…': '...',
  µ: 'u',
  μ: 'u',
  '·': '-',
  '×': 'x',
  '°': ' deg',
};

/** A user's text in ASCII: letters without their accents, a question mark for others. */
export function inAscii(text: string): string {
  return harmless(text)
    .replaceAll(/[^\x20-\x7e]/g, (character) => SPELT[character] ?? character)
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll(/[^\x20-\x7e]/gu, '?');
}

/** At most `room` characters; `~` stands for the rest. */
export function cut(text: string, room: number): string {
  return text.length <= room ? text : `${text.slice(0, Math.max(0, room - 1))}~`;
}
