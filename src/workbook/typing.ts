/**
 * Finds the path of keys at the cursor in an unfinished cell. The text above is parsed with a placeholder at the cursor
 * and every open bracket closed; below it only keys are read, so that the next line never becomes part of this value.
 */
import { Composer, isMap, isScalar, isSeq, Parser, Schema, type Node, type YAMLMap } from 'yaml';
import { lexed } from './lexing.ts';
import { nestsTooDeep } from './nesting.ts';

/** The unfinished key or value at the cursor. */
export interface Typing {
  /** Keys and indexes, that of the place itself last; empty for a key of the cell. */
  readonly path: readonly string[];
  readonly part: 'key' | 'value';
  /** The text of the value or key before the cursor, and its offset. */
  readonly before: string;
  readonly start: number;
  /** Keys that are already there beside it. */
  readonly present: readonly string[];
  /** The texts of the cell's top-level keys. */
  readonly top: Readonly<Record<string, string>>;
  /** Between brackets. */
  readonly flow: boolean;
}

/** A placeholder that no user types. */
const STAND_IN = 'zqAlignbookzq';

/** @param reading a cell's text as it is parsed */
export function typingAt(reading: string, offset: number): Typing | undefined {
  const head = reading.slice(0, offset);
  if (nestsTooDeep(head) || inComment(head)) return undefined;
  const open = openBrackets(head);
  const line = head.slice(head.lastIndexOf('\n') + 1);
  const isBareKey = open === '' && /^[\w .-]*$/.test(line) && !/^[ ]*- /.test(line);
  const document = parsed(`${head}${STAND_IN}${isBareKey ? ':' : ''}${open}\n`);
  const place = document && placeIn(document, []);
  if (!place) return undefined;
  const { path, part, before, beside } = place;
  const rest = reading.slice(offset);
  return {
    path,
    part,
    before,
    start: offset - before.length,
    present: [...beside, ...keysBelow(rest, path.length, open !== '')],
    top: { ...topOf(document), ...topBelow(rest) },
    flow: open !== '',
  };
}

function inComment(head: string): boolean {
  const line = head.slice(head.lastIndexOf('\n') + 1);
  const unquoted = line.slice(Math.max(line.lastIndexOf('"'), line.lastIndexOf("'")) + 1);
  return /^[ \t]*#/.test(line) || /[ \t]#/.test(unquoted);
}

/** The brackets that close those open at the end of a text. */
function openBrackets(head: string): string {
  let open = '';
  for (const { token, scalar } of lexed(head)) {
    if (scalar) continue;
    if (token === '{') open = `}${open}`;
    else if (token === '[') open = `]${open}`;
    else if (token === '}' || token === ']') open = open.slice(1);
  }
  return open;
}

const FAILSAFE = new Schema({ schema: 'failsafe' });

/** Errors above the cursor are ignored. */
function parsed(text: string): Node | undefined {
  const composer = new Composer({ schema: FAILSAFE, uniqueKeys: false, prettyErrors: false, logLevel: 'silent' });
  const [first] = composer.compose(new Parser().parse(text), true, text.length);
  return (first?.contents ?? undefined) as Node | undefined;
}

interface CursorPlace {
  readonly path: readonly string[];
  readonly part: 'key' | 'value';
  readonly before: string;
  readonly beside: readonly string[];
}

function placeIn(node: unknown, path: readonly string[], beside: readonly string[] = []): CursorPlace | undefined {
  if (isScalar(node)) return here(node.value, path, 'value', beside);
  if (isSeq(node)) return first(node.items, (item, i) => placeIn(item, [...path, String(i)]));
  return isMap(node) ? inMap(node, path) : undefined;
}

function inMap(map: YAMLMap, path: readonly string[]): CursorPlace | undefined {
  const keys = map.items.map(({ key }) => (isScalar(key) ? String(key.value) : ''));
  return first(map.items, ({ key, value }, k) => {
    const beside = keys.filter((name, i) => i !== k && name !== '');
    const asKey = isScalar(key) ? here(key.value, path, 'key', beside) : undefined;
    return asKey ?? placeIn(value, [...path, keys[k]!], beside);
  });
}

/** In a text of several lines nothing is completed. */
function here(
  value: unknown,
  path: readonly string[],
  part: CursorPlace['part'],
  beside: readonly string[],
): CursorPlace | undefined {
  const text = String(value);
  const at = text.indexOf(STAND_IN);
  return at < 0 || text.includes('\n') ? undefined : { path, part, before: text.slice(0, at), beside };
}

function first<T, R>(items: readonly T[], look: (item: T, index: number) => R | undefined): R | undefined {
  for (const [i, item] of items.entries()) {
    const place = look(item, i);
    if (place !== undefined) return place;
  }
  return undefined;
}

/** In brackets the keys up to their end; at the top level the keys at the beginning of lines. */
function keysBelow(rest: string, depth: number, flow: boolean): string[] {
  const part = flow ? rest.split(/[}\n]/, 1)[0]! : rest;
  const pattern = flow ? /\b(\w+)\s*:/g : depth === 0 ? /^([\w-]+)\s*:/gm : /(?!)/g;
  return [...part.matchAll(pattern)].map(([, key]) => key!);
}

function topOf(document: Node): Record<string, string> {
  if (!isMap(document)) return {};
  return Object.fromEntries(
    document.items.flatMap(({ key, value }) =>
      isScalar(key) && isScalar(value) && !String(value.value).includes(STAND_IN)
        ? [[String(key.value), String(value.value)]]
        : [],
    ),
  );
}

function topBelow(rest: string): Record<string, string> {
  return Object.fromEntries(
    [...rest.matchAll(/^(\w+):[ \t]+([A-Za-z]\w*)[ \t]*$/gm)].map(([, key, value]) => [key!, value!]),
  );
}
