/**
 * Amendments: a past cell is corrected in place, and its `amended` list keeps what it said before. The comparison is of
 * what is written, key by key; a list counts as one value.
 */
import { lineEndOf } from '../cells/index.ts';
import { pathTo, type Amendment } from '../model/index.ts';
import { readTree } from './read-tree.ts';
import type { Tree } from './tree.ts';

/** Who corrected a cell, when (ISO 8601), and why. */
export type Corrected = Omit<Amendment, 'was'>;

type Mapping = Readonly<Record<string, Tree>>;

/** Stands in `was` for a key, or a cell, that was not there. */
const NOTHING = 'nothing';

/**
 * The corrected cell with one more entry in `amended`: the changed keys with their values in the former text. Undefined
 * if nothing differs, or one of the texts is no mapping.
 *
 * @param former the cell as it stood, with or without its `---` line; undefined for a cell that was not there
 * @param corrected the cell as it shall stand
 */
export function withAmendment(former: string | undefined, corrected: string, why: Corrected): string | undefined {
  const now = mappingIn(corrected);
  if (!now) return undefined;
  if (former === undefined) return added(corrected, now, NOTHING, why);
  const then = mappingIn(former);
  const was = then && difference(then, now);
  return was && Object.keys(was).length > 0 ? added(corrected, now, was, why) : undefined;
}

/** The content of a cell before its last `count` amendments; undefined if it was not there, or is no mapping. */
export function before(text: string, count: number): Mapping | undefined {
  let now = mappingIn(text);
  for (let k = 0; k < count && now; k++) now = undone(now);
  return now;
}

/** A cell without its last amendment; undefined if that put the cell in. */
function undone({ amended, ...now }: Mapping): Mapping | undefined {
  if (!Array.isArray(amended) || amended.length === 0) return { ...now, ...(amended !== undefined && { amended }) };
  const list = amended as readonly Tree[];
  const last = list.at(-1);
  const was = isMapping(last) ? last['was'] : undefined;
  const rest = list.slice(0, -1);
  if (was === NOTHING) return undefined;
  const then = isMapping(was) ? restored(now, was) : now;
  return { ...then, ...(rest.length > 0 && { amended: rest }) };
}

/** `was` put back, nested as in the cell. */
function restored(now: Mapping, was: Mapping): Mapping {
  const then: Record<string, Tree> = { ...now };
  for (const [key, value] of Object.entries(was)) {
    const current = now[key];
    if (value === NOTHING) delete then[key];
    else then[key] = isMapping(value) && isMapping(current) ? restored(current, value) : value;
  }
  return then;
}

/** The keys that differ, with their former values. */
function difference(then: Mapping, now: Mapping): Mapping {
  const was: Record<string, Tree> = {};
  for (const key of new Set([...Object.keys(then), ...Object.keys(now)])) {
    const [former, current] = [then[key], now[key]];
    if (key === 'amended' || isSame(former, current)) continue;
    if (isMapping(former) && isMapping(current)) was[key] = difference(former, current);
    else was[key] = former === undefined ? NOTHING : former;
  }
  return was;
}

function isSame(one: Tree | undefined, other: Tree | undefined): boolean {
  if (one === other) return true;
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((value: Tree, k) => isSame(value, (other as readonly Tree[])[k]));
  if (!isMapping(one) || !isMapping(other)) return false;
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => isSame(one[key], other[key]));
}

function isMapping(tree: Tree | undefined): tree is Mapping {
  return typeof tree === 'object' && tree !== null && !Array.isArray(tree);
}

function mappingIn(text: string): Mapping | undefined {
  const { tree } = readTree(text.replace(/^---(?=\s)/, '   '));
  return isMapping(tree) ? tree : undefined;
}

/** The text with an entry behind the others of `amended`, or with that key at its end. */
function added(text: string, cell: Mapping, was: Tree, { date, by, reason }: Corrected): string {
  const entry = inline({ was, date, by, reason });
  const end = lineEndOf(text);
  const { places } = readTree(text.replace(/^---(?=\s)/, '   '));
  const list = places.get(pathTo('amended'));
  if (list === undefined || !Array.isArray(cell['amended'])) {
    const [content, closer = ''] = text.split(/^(?=\.\.\.(?:\s|$))/m);
    const body = content!.endsWith('\n') ? content! : content! + end;
    const blank = /(?:\r?\n[ \t]*)+$/.exec(body)!;
    return `${body.slice(0, blank.index)}${end}amended:${end}  - ${entry}${blank[0]}${closer}`;
  }
  const { span } = list;
  const written = text.slice(span.start, span.end);
  if (written.endsWith(']')) {
    const comma = (cell['amended'] as readonly Tree[]).length > 0 ? ', ' : '';
    const inner = written.slice(0, -1).replace(/,?\s*$/, '');
    return `${text.slice(0, span.start)}${inner}${comma}${entry}]${text.slice(span.end)}`;
  }
  const line = text.lastIndexOf('\n', span.start) + 1;
  const indent = ' '.repeat(span.start - line);
  const last = text.slice(0, span.end).trimEnd().length;
  const rest = text.indexOf('\n', last);
  const at = rest < 0 ? text.length : rest;
  return `${text.slice(0, at).replace(/\r$/, '')}${end}${indent}- ${entry}${text.slice(at === text.length ? at : text[at - 1] === '\r' ? at - 1 : at)}`;
}

/** On one line, in brackets; texts quoted where they could be read as anything else. */
function inline(tree: Tree): string {
  if (tree === null) return '';
  if (typeof tree === 'string')
    return /^[A-Za-z0-9](?:[\w .+/%()-]*[\w.+/%()-])?$/.test(tree) ? tree : JSON.stringify(tree);
  if (Array.isArray(tree)) return `[${(tree as readonly Tree[]).map(inline).join(', ')}]`;
  return `{${Object.entries(tree)
    .map(([key, value]) => `${inline(key)}: ${inline(value)}`)
    .join(', ')}}`;
}
