/** Random edits, typical and untypical: the same for the same seed. */
import { readFileSync, readdirSync } from 'node:fs';

const folder = new URL('../../examples/', import.meta.url);
const EXAMPLES = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => readFileSync(new URL(name, folder), 'utf8'));

export interface RandomEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** A small generator of good enough numbers (mulberry32). */
export function randomOf(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const PIECES = [
  '---\n',
  '\n---\n',
  '- ',
  '{',
  '}',
  '[',
  ']',
  ':',
  ': ',
  ',',
  '#',
  '"',
  "'",
  '\n',
  '\r\n',
  '\t',
  '  ',
  '...\n',
  '<<<<<<< a\n',
  '=======\n',
  '>>>>>>> b\n',
  '&a ',
  '*a',
  '!t ',
  '|',
  'x',
  '7',
  '.',
  ' 1/8 in',
  '1.5 right 2.0 down',
  'M1',
  'M2',
  'near',
  'marks: M2\n',
  'limits: w\n',
  'session: a\n',
  'adjust: M1\nturn: {A: in 1/4}\n',
  'event: moved\n',
  'checks: a\ndone: [b]\n',
  'care: lens\ndid: replaced\n',
  'lock: loose\n',
  'tape: reused\n',
  'release: in service\n',
  'note: |\n',
  '# alignbook: allow mark.outside: b\n',
  '\u2029',
  '😀',
  '__proto__: 1\n',
  'machine: other\n',
];

export function startOf(random: () => number): string {
  return EXAMPLES[Math.floor(random() * EXAMPLES.length)]!;
}

export function editOf(text: string, random: () => number): RandomEdit {
  const at = Math.floor(random() * (text.length + 1));
  const pick = <T>(of: readonly T[]) => of[Math.floor(random() * of.length)]!;
  const cut = (most: number) => Math.min(text.length, at + Math.floor(random() * most));
  const kind = random();
  if (kind < 0.45) return { start: at, end: at, text: pick(PIECES) };
  if (kind < 0.7) return { start: at, end: cut(3), text: pick(['', 'a', '1', ' ']) };
  if (kind < 0.85) return { start: at, end: cut(60), text: '' };
  // A part of the text copied elsewhere, with a bound on the length.
  const from = Math.floor(random() * text.length);
  return text.length < 20_000
    ? { start: at, end: at, text: text.slice(from, from + Math.floor(random() * 300)) }
    : { start: at, end: cut(2000), text: '' };
}
