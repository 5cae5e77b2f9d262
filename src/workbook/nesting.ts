/**
 * How deep a text nests, looked at before any parser sees it: a tree walker's stack has an end, and a text of ten
 * thousand `[` would reach it. A quick look that counts too much passes nearly every cell; only what it doubts is
 * looked at with the YAML lexer, which knows quotes and does not recurse.
 */
import { lexed } from './lexing.ts';

export const DEEPEST = 64;

/** Whether the text nests deeper than is safe to parse. */
export function nestsTooDeep(text: string): boolean {
  // Every level needs a bracket, or a sign of a list or mapping.
  const signs = text.match(/[[{]|[-?:](?=\s|$)/g)?.length ?? 0;
  if (signs <= DEEPEST) return false;
  return flowDepth(text) > DEEPEST || blockDepth(structure(text)) > DEEPEST;
}

/** Brackets that are open at once. */
function flowDepth(text: string): number {
  let depth = 0;
  let most = 0;
  for (const { token } of lexed(text)) {
    if (opens(token)) most = Math.max(most, ++depth);
    else if (closes(token)) depth = Math.max(0, depth - 1);
  }
  return most;
}

/** The text with what is quoted, in blocks of text, in brackets or in comments blanked: the bones of its blocks. */
function structure(text: string): string {
  let depth = 0;
  const bones: string[] = [];
  for (const { token, scalar } of lexed(text)) {
    if (opens(token)) depth++;
    else if (closes(token)) depth = Math.max(0, depth - 1);
    const isBone = depth === 0 && !scalar && token[0] !== '#';
    bones.push(isBone ? token : `x${token.slice(1).replace(/[^\n]/g, ' ')}`);
  }
  return bones.join('');
}

/** Columns inside which the text stands: indentation, and each `- `, `? ` or `key: ` in front of more on one line. */
function blockDepth(text: string): number {
  const columns: number[] = [];
  let most = 0;
  for (const [line] of text.matchAll(/^.*\S.*$/gm)) {
    for (const column of openings(line)) {
      while (columns.length > 0 && columns.at(-1)! >= column) columns.pop();
      columns.push(column);
    }
    most = Math.max(most, columns.length);
  }
  return most;
}

function openings(line: string): number[] {
  const columns = [line.search(/\S/)];
  for (const match of line.matchAll(/[-?:][ \t]+(?=\S)/g)) columns.push(match.index + match[0].length);
  return columns;
}

function opens(token: string): boolean {
  return token === '[' || token === '{';
}

function closes(token: string): boolean {
  return token === ']' || token === '}';
}
