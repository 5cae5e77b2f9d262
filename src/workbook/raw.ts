/**
 * Reads a cell from its text alone: its kind, its values by the schema, and its problems. Of the context only the unit
 * of lengths is used, so one reading is valid as long as the text stays the same.
 */
import type * as z from 'zod';
import {
  isKind,
  keysOf,
  KINDS,
  nearest,
  pathTo,
  type Kind,
  type Path,
  type Span,
  type Spans,
  type Units,
} from '../model/index.ts';
import { ASIDE, CELL_KINDS } from './kinds/index.ts';
import { description, misfits, spanAt, type Misfit } from './issues.ts';
import { MOST_PROBLEMS, type Problem } from './problem.ts';
import { quoteHints } from './quoting.ts';
import type { SchemaOf } from './schemas.ts';
import { firstLine } from './stretches.ts';
import { readTree } from './read-tree.ts';
import type { Place, Tree } from './tree.ts';

type TreeMap = { readonly [key: string]: Tree };

export interface RawCell {
  readonly text: string;
  readonly problems: readonly Problem[];
  readonly spans: Spans;
  readonly kind?: Kind;
  /** The part or station of the cell, if it can be read. */
  readonly part?: string;
  /** As its kind's schema returns it; absent if the cell cannot be used. */
  readonly value?: object;
  /** Paths of values that were left out so that the rest could be read. */
  readonly dropped: ReadonlySet<Path>;
}

/** Undefined for an empty cell. */
export function readRaw(text: string, units: Units, schemaOf: SchemaOf): RawCell | undefined {
  const { tree, places, problems } = readTree(text);
  if (tree === null && problems.length === 0) return undefined;
  const unread = { text, spans: spansOf(places), dropped: NOTHING };
  if (tree === undefined) return { ...unread, problems, ...glimpse(text) };
  if (!isMap(tree)) {
    const found = description(tree);
    return {
      ...unread,
      problems: [...problems, { code: 'cell.mapping', span: firstLine(text), facts: { found } }],
      ...glimpse(text),
    };
  }
  const kinds = kindsIn(tree);
  const [kind, second] = kinds;
  if (kind === undefined) return { ...unread, problems: [...problems, noKind(tree, text, places)] };
  if (second !== undefined)
    return { ...unread, ...farthest(kinds), problems: [...problems, twoKinds(kind, second, text, places)] };
  const part = partOf(tree[kind]);
  const known = { ...unread, kind, ...(part !== undefined && { part }) };
  const fitted = fit(kind, tree, text, places, schemaOf(kind, kind === 'machine' ? unitsIn(tree) : units));
  const fits = fitted.problems.filter(({ span }) => !problems.some((other) => other.span.start === span.start));
  const all = [...problems, ...fits, ...kindFirst(kind, tree, text, places)];
  const value = problems.length > 0 ? undefined : fitted.value;
  return {
    ...known,
    dropped: fitted.dropped,
    problems: [...all, ...quoteHints(text, places, value, all)],
    ...(value && { value }),
  };
}

/** Applies the schema; if only optional values have errors, a second time without them. */
function fit(kind: Kind, tree: TreeMap, text: string, places: ReadonlyMap<Path, Place>, schema: z.ZodType) {
  const first = schema.safeParse(tree);
  if (first.success) return { value: first.data as object, problems: [], dropped: NOTHING };
  const unfit = misfits(first.error.issues, { kind, text, tree, places });
  const problems = unfit.slice(0, MOST_PROBLEMS).map(({ problem }) => problem);
  const dropped = droppable(kind, unfit);
  const second = dropped === undefined ? undefined : schema.safeParse(without(tree, dropped));
  return { problems, dropped: dropped ?? NOTHING, ...(second?.success && { value: second.data as object }) };
}

/** The shortest paths to leave out; undefined if the cell cannot be used without them. */
function droppable(kind: Kind, unfit: readonly Misfit[]): Set<Path> | undefined {
  const isOptional = CELL_KINDS[kind].isOptional ?? (() => false);
  const paths = unfit.flatMap(({ path, also }) => (also === undefined ? [path] : [path, also]));
  if (!paths.every((path) => isAside(kind, path) || isOptional(path))) return undefined;
  return new Set(paths.map((path) => pathTo(...keysOf(path).slice(0, isAside(kind, path) ? 1 : 2))));
}

const NOTHING: ReadonlySet<Path> = new Set();

/** Whether the path is one of the common keys, which no other depends on. */
export function isAside(kind: Kind, path: Path): boolean {
  const [key] = keysOf(path);
  return key !== undefined && key !== kind && ASIDE.has(key);
}

/** Replaces a list item that was left out, so that the others keep their index: a mark that is always valid. */
const LEFT_OUT = 'none';

function without(tree: TreeMap, paths: ReadonlySet<Path>): TreeMap {
  const copy: Record<string, Tree> = Object.assign(Object.create(null), tree);
  for (const key of new Set([...paths].flatMap((path) => keysOf(path).slice(0, 1)))) {
    const value = copy[key];
    const isOut = (inner: string | number) => paths.has(pathTo(key, inner));
    if (paths.has(pathTo(key))) delete copy[key];
    else if (Array.isArray(value)) copy[key] = value.map((item: Tree, i) => (isOut(i) ? LEFT_OUT : item));
    else if (isMap(value)) copy[key] = Object.fromEntries(Object.entries(value).filter(([name]) => !isOut(name)));
  }
  return copy;
}

/** A machine cell is in its own units. */
function unitsIn(tree: TreeMap): Units {
  return tree['units'] === 'in' ? 'in' : 'mm';
}

function kindsIn(tree: TreeMap): Kind[] {
  const words = Object.keys(tree).filter(isKind);
  if (words.includes('work')) return ['work'];
  const kinds = words.filter(
    (word) => word !== 'note' && !(word === 'care' && words.includes('machine') && isMap(tree['care'])),
  );
  return kinds.length === 0 && words.includes('note') ? ['note'] : kinds;
}

/**
 * The probable kind of a text that is no YAML: by the kind words at the beginning of lines. A note is often part of
 * another kind.
 */
function glimpse(text: string): { kind?: Kind; part?: string } {
  const matches = [...text.matchAll(KIND_LINE)].map(([, kind, part]) => ({
    kind: kind as Kind,
    ...(part !== undefined && { part }),
  }));
  const others = matches.filter(({ kind }) => kind !== 'note');
  return others.length > 1 ? farthest(others.map(({ kind }) => kind)) : (others[0] ?? matches[0] ?? {});
}

const KIND_LINE = new RegExp(`^(${KINDS.join('|')})[ \\t]*:[ \\t]*(?:["']?)([A-Za-z]\\w*)?`, 'gm');

/**
 * If a cell has two kinds, the one with the greater effect: without a machine or limits nothing is within; else
 * anything may have moved.
 */
function farthest(kinds: readonly Kind[]): { kind?: Kind } {
  const kind = (['machine', 'limits'] as const).find((one) => kinds.includes(one));
  return kind === undefined ? {} : { kind };
}

function partOf(tree: Tree | undefined): string | undefined {
  return typeof tree === 'string' && tree.length <= 100 ? tree.trim() : undefined;
}

function noKind(tree: TreeMap, text: string, places: ReadonlyMap<Path, Place>): Problem {
  const [first, ...others] = Object.keys(tree);
  const problem = { code: 'cell.kind' as const, facts: { kinds: KINDS.join(', ') } };
  for (const key of first === undefined ? [] : [first, ...others.slice(0, 20)]) {
    const suggestion = nearest(key, KINDS);
    const span = places.get(pathTo(key))?.key;
    if (suggestion !== undefined && span !== undefined)
      return { ...problem, span, suggestion, fix: { span, text: suggestion } };
  }
  return { ...problem, span: (first === undefined ? undefined : places.get(pathTo(first))?.key) ?? firstLine(text) };
}

/** If the second kind begins a line, a separator fixes it. */
function twoKinds(first: Kind, second: Kind, text: string, places: ReadonlyMap<Path, Place>): Problem {
  const at = places.get(pathTo(second))?.key ?? spanAt(pathTo(second), places);
  const problem = { code: 'cell.kinds' as const, span: at, facts: { first, second } };
  return text[at.start - 1] === '\n'
    ? { ...problem, fix: { span: span(at.start, at.start), text: `---${lineEndIn(text)}` } }
    : problem;
}

/** A hint, with a fix that moves the kind to the top of a cell in block style. */
function kindFirst(kind: Kind, tree: TreeMap, text: string, places: ReadonlyMap<Path, Place>): Problem[] {
  const [first] = Object.keys(tree);
  const top = first === undefined ? undefined : places.get(pathTo(first))?.key;
  const place = places.get(pathTo(kind));
  if (first === kind || top === undefined || place?.key === undefined || place.key.start <= top.start) return [];
  const { key, span: value } = place;
  const end = Math.max(value.end, key.end + 1);
  const problem = { code: 'cell.kindFirst' as const, span: key, facts: { kind } };
  const ownLine = /(^|\n)[ \t]*$/.test(text.slice(top.start, key.start)) && /^[ \t]*(\r?\n|$)/.test(text.slice(end));
  if (!ownLine) return [problem];
  const before = text.slice(top.start, key.start).trimEnd();
  return [
    {
      ...problem,
      fix: { span: span(top.start, end), text: `${text.slice(key.start, end)}${lineEndIn(text)}${before}` },
    },
  ];
}

function spansOf(places: ReadonlyMap<Path, Place>): Spans {
  const spans: Record<Path, Span> = {};
  for (const [path, place] of places) spans[path] = place.span;
  return spans;
}

function lineEndIn(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}

function span(start: number, end: number): Span {
  return { start, end };
}

function isMap(tree: Tree | undefined): tree is TreeMap {
  return typeof tree === 'object' && tree !== null && !Array.isArray(tree);
}
