/**
 * Checks the depth of a text before any parser reads it: the stack of a tree walker is limited, and a text of ten
 * thousand `[` would exceed it. A quick test that overestimates passes nearly every cell; the others are checked with
 * the YAML lexer, which handles quotes and does not recurse.
 */
import { lexed } from './lexing.ts';

export const DEEPEST = 64;

/** Whether the text nests deeper than is safe to parse. */
export function nestsTooDeep(text: string): boolean {
  // Every level needs a bracket, or a list or mapping indicator.
  const signs = text.match(/[[{]|[-?:](?=\s|$)/g)?.length ?? 0;
  if (signs <= DEEPEST) return false;
  return flowDepth(text) > DEEPEST || blockDepth(structure(text)) > DEEPEST;
}

/** The maximum number of brackets open at once. */
function flowDepth(text: string): number {
  let depth = 0;
  let most = 0;
  for (const { token } of lexed(text)) {
    if (opens(token)) most = Math.max(most, ++depth);
    else if (closes(token)) depth = Math.max(0, depth - 1);
  }
  return most;
}

/** The text with quotes, blocks of text, brackets and comments blanked, so that its block structure remains. */
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

/** The maximum number of nested columns: indentation, and each `- `, `? ` or `key: ` before more text on a line. */
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
