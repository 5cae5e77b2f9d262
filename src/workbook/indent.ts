/** Indents by two spaces for each level. Continuation lines of a value move with its first line. */
import { lexed } from './lexing.ts';

interface Level {
  readonly old: number;
  readonly now: number;
}

export function indented(text: string): string {
  const inside = continued(text);
  const levels: Level[] = [];
  let moved = 0;
  let at = 0;
  const lines = text.split('\n').map((line) => {
    const start = at;
    at += line.length + 1;
    if (line.trim() === '' || line.startsWith('---')) return line;
    const old = /^ */.exec(line)![0].length;
    if (inside(start + old)) return shifted(line, old + moved);
    if (line[old] === '#') return { comment: line };
    // A list may have the indentation of its key.
    const place = line[old] === '-' && /\s|$/.test(line[old + 1] ?? '') ? old + 0.5 : old;
    while (levels.length > 0 && levels.at(-1)!.old >= place) levels.pop();
    const now = levels.length === 0 ? 0 : levels.at(-1)!.now + 2;
    levels.push({ old: place, now });
    moved = now - old;
    return shifted(line, now);
  });
  return withComments(lines).join('\n');
}

function shifted(line: string, indent: number): string {
  return ' '.repeat(Math.max(0, indent)) + line.trimStart();
}

/** A comment line belongs to the line below it. */
function withComments(lines: readonly (string | { readonly comment: string })[]): string[] {
  let indent = 0;
  return lines
    .toReversed()
    .map((line) => {
      if (typeof line !== 'string') return shifted(line.comment, indent);
      if (line.trim() !== '' && !line.startsWith('---')) indent = /^ */.exec(line)![0].length;
      else if (line.startsWith('---')) indent = 0;
      return line;
    })
    .reverse();
}

/** Whether an offset is inside a value that began on a line above: a block of text, a quote, brackets. */
function continued(text: string): (offset: number) => boolean {
  const stretches: (readonly [from: number, to: number])[] = [];
  const open: number[] = [];
  for (const { token, start, scalar } of lexed(text)) {
    if (scalar) stretches.push([start, start + token.length]);
    else if (token === '{' || token === '[') open.push(start);
    else if (token === '}' || token === ']') stretches.push([open.pop() ?? start, start + 1]);
  }
  const long = stretches.filter(([from, to]) => text.slice(from, to).includes('\n'));
  return (offset) => long.some(([from, to]) => from < offset && offset < to);
}
