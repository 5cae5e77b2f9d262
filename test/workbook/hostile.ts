/** Texts meant to hurt: the tests ask what becomes of them, the bench how long it takes. */
import { MACHINE } from './sample.ts';

const keys = (count: number) => Array.from({ length: count }, (_, i) => `k${i}: 1`).join('\n');
const bomb = Array.from({ length: 40 }, (_, i) => `x${i}: &b${i} [${i === 0 ? 'a' : `*b${i - 1}, *b${i - 1}`}]`).join(
  '\n',
);

/** Whole files, and the codes of what is found in them. */
export const HOSTILE_CELLS: readonly (readonly [name: string, text: string, codes: RegExp])[] = [
  ['brackets', `note: ${'['.repeat(10_000)}`, /cells.limit/],
  ['brackets that quotes close', `note: ${"[']',".repeat(10_000)}`, /cells.limit/],
  ['dashes', `note:\n${'- '.repeat(10_000)}a`, /cells.limit/],
  ['indents', Array.from({ length: 500 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'), /cells.limit/],
  ['an alias bomb', bomb, /cells.limit/],
  ['many keys', `session: a\n${keys(20_000)}`, /cell.key/],
  ['many names', `${MACHINE}---\nmarks: M2\nshots: {${keys(5_000).replaceAll('\n', ', ')}}`, /mark.direction/],
  ['many cells', '---\nnote: a\n'.repeat(20_000), /^$/],
  ['one long text', `note: "${'x'.repeat(900_000)}"`, /^$/],
  ['a long sum', `${MACHINE}---\npower: lens\nreading: ${'1+'.repeat(100_000)}1`, /tooLong/],
  ['a hostile name', 'session: a\n__proto__: {by: x}\nconstructor: x', /name.unreadable cell.key/],
];

/** What quantities are written with, each many times over. */
export const HOSTILE_PIECES: readonly string[] = [
  '(',
  '-',
  '1+',
  '9',
  'a',
  '1 ',
  'sqrt(',
  '1/',
  ' ',
  'in ',
  ',',
  '1,',
  '.',
  '±',
  '1 right ',
  ':',
  '½',
  'at ',
  'size ',
  '"',
  '1e',
];

export function repeated(piece: string, length: number): string {
  return piece.repeat(Math.floor(length / piece.length));
}
