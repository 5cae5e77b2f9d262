/**
 * What marks and shifts have in common: lengths, each followed by its direction. The text is split at the words that
 * are no units; the text before such a word is its length.
 */
import { isDirection, opposite, type Direction, type Quantity } from '../../model/index.ts';
import type { QuantityContext } from './measured.ts';
import { problem, quoted, shifted, type QuantityProblem } from './reading.ts';
import { readLength } from './scalars.ts';
import { tokens, type Token } from './tokens.ts';
import { unitNamed } from './units.ts';

/** A length in mm toward a direction, not negative as read; [from, to) covers both. */
export interface DirectedLength {
  readonly length: number;
  readonly u?: number;
  readonly word: Direction;
  readonly from: number;
  readonly to: number;
}

type Thing = 'mark' | 'shift';

/** The words of a text that are neither units nor functions; its commas are removed, each with a problem. */
export function structure(text: string, thing: Thing): { text: string; words: Token[]; problems: QuantityProblem[] } {
  const all = tokens(text);
  const commas = all.filter((token) => token.kind === 'comma');
  const problems = commas.map(({ from, to }) => problem(`${thing}.comma`, from, to, { text: quoted(text) }, ''));
  let cleaned = text;
  for (const { from, to } of commas) cleaned = `${cleaned.slice(0, from)} ${cleaned.slice(to)}`;
  const words = all.filter(({ kind, text: word }) => kind === 'word' && !unitNamed(word) && word !== 'sqrt');
  return { text: cleaned, words, problems };
}

/** The length in text[from, to); a second number in it lacks its direction. */
export function lengthWithin(
  text: string,
  from: number,
  to: number,
  thing: Thing,
  context: QuantityContext,
): Quantity | QuantityProblem[] {
  const reading = shifted(readLength(text.slice(from, to), context), from);
  if (reading.value) return reading.value;
  return reading.problems.map((p) => {
    if (p.code !== 'quantity.operator') return p;
    const start = from + text.slice(from, to).search(/\S/);
    const end = text.slice(0, p.from).trimEnd().length;
    return problem(`${thing}.direction`, start, end, { text: quoted(text.slice(start, end)) });
  });
}

/** The length before the direction word at [word.from, word.to); it may begin at `from`. */
export function directedLength(
  text: string,
  from: number,
  word: Token,
  thing: Thing,
  context: QuantityContext,
): DirectedLength | QuantityProblem[] {
  const before = text.slice(from, word.from);
  if (before.trim() === '') return [problem(`${thing}.length`, word.from, word.to, { word: word.text })];
  const length = lengthWithin(text, from, word.from, thing, context);
  if (Array.isArray(length)) return length;
  const start = from + before.search(/\S/);
  const direction = word.text as Direction;
  if (length.value < 0) {
    const unsigned = /^[-−]\s*([^-+−]+)$/.exec(before.trim())?.[1];
    const fix = unsigned === undefined ? undefined : `${unsigned} ${opposite(direction)}`;
    const facts = { text: quoted(text.slice(start, word.to)), must: 'not negative' };
    return [problem('quantity.sign', start, word.to, facts, fix)];
  }
  const part = { length: length.value, word: direction, from: start, to: word.to };
  return length.u === undefined ? part : { ...part, u: length.u };
}

/** `right 1.5 down 2.0`: every direction before its length. One problem with a fix that swaps them. */
export function wrongOrder(text: string, words: readonly Token[], thing: Thing): QuantityProblem | undefined {
  const first = words[0];
  if (!first || text.slice(0, first.from).trim() !== '') return undefined;
  const pairs = words.map((word, i) => [text.slice(word.to, words[i + 1]?.from).trim(), word.text] as const);
  if (!pairs.every(([length, word]) => length !== '' && isDirection(word))) return undefined;
  const fix = pairs.map(([length, word]) => `${length} ${word}`).join(' ');
  return problem(`${thing}.order`, first.from, text.trimEnd().length, { text: quoted(text) }, fix);
}

const AXES: readonly (readonly Direction[])[] = [
  ['left', 'right'],
  ['front', 'rear'],
  ['down', 'up'],
];

/** The first part whose axis is already given by an earlier one. */
export function givenTwice(parts: readonly DirectedLength[], thing: Thing): QuantityProblem | undefined {
  const given = new Map<readonly Direction[] | undefined, Direction>();
  for (const { word, from, to } of parts) {
    const axis = AXES.find((words) => words.includes(word));
    const other = given.get(axis);
    if (other) return problem(`${thing}.twice`, from, to, { word, other });
    given.set(axis, word);
  }
  return undefined;
}
