/**
 * Converts zod's issues to findings at their places. For a union zod reports every alternative; only the one that was
 * meant, by its outer type, is reported here.
 */
import type * as z from 'zod';
import {
  nearest,
  parentOf,
  pathInWords,
  pathTo,
  ROOT,
  type FindingCode,
  type Path,
  type Span,
} from '../model/index.ts';
import type { QuantityProblem } from './quantities/index.ts';
import type { Problem } from './problem.ts';
import type { Place, Tree } from './tree.ts';

type Issue = z.core.$ZodIssue;

/** A problem and the path of keys and indexes that it is about. */
export interface Misfit {
  readonly path: Path;
  /** Another path that is not valid either: the beginning of a mark that a comma cut in two. */
  readonly also?: Path;
  readonly problem: Problem;
}

export interface Written {
  readonly kind: string;
  readonly text: string;
  readonly tree: Tree;
  readonly places: ReadonlyMap<Path, Place>;
}

export function misfits(issues: readonly Issue[], cell: Written): Misfit[] {
  const all = issues.flatMap((issue) => ofIssue(issue, issue.path, cell));
  const cut = new Set(all.map(({ also }) => also));
  return all.filter(({ path }) => !cut.has(path));
}

function ofIssue(issue: Issue, path: readonly PropertyKey[], cell: Written): Misfit[] {
  switch (issue.code) {
    case 'custom':
      return [ofScalar(issue.params as unknown as QuantityProblem, pathOf(path), cell)];
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownKey(key, issue.message.split('\n'), path, cell));
    case 'invalid_key':
      return [unknownKey(String(path.at(-1)), undefined, path.slice(0, -1), cell)];
    case 'invalid_union':
      return ofUnion(issue, path, cell);
    case 'invalid_value':
      return [ofWord(issue, path, cell)];
    default:
      return [ofShape(issue.message, path, cell)];
  }
}

function ofUnion(issue: z.core.$ZodIssueInvalidUnion, path: readonly PropertyKey[], cell: Written): Misfit[] {
  const meant = issue.errors.find((errors) => !errors.some(isOfAnotherType));
  if (meant === undefined) return [ofShape(issue.message, path, cell)];
  return meant.flatMap((inner) => ofIssue(inner, [...path, ...inner.path], cell));
}

/** Whether an alternative of a union was not meant: a list, where there is a mapping. */
function isOfAnotherType(issue: Issue): boolean {
  if (issue.path.length > 0) return false;
  if (issue.code === 'invalid_union') return issue.errors.every((errors) => errors.some(isOfAnotherType));
  return issue.code === 'invalid_type';
}

/** A key that is not in the format, or (without `known`) no valid name. */
function unknownKey(
  key: string,
  known: readonly string[] | undefined,
  parent: readonly PropertyKey[],
  cell: Written,
): Misfit {
  const path = pathOf([...parent, key]);
  const place = cell.places.get(path);
  const span = place?.key ?? spanAt(pathOf(parent), cell.places);
  const comma = isRestOfMark(key) ? cell.text.slice(0, span.start).trimEnd().length - 1 : -1;
  if (cell.text[comma] === ',') {
    const keys = Object.keys(valueAt(cell.tree, parent) ?? {});
    const before = keys[keys.indexOf(key) - 1];
    return {
      path,
      ...(before !== undefined && { also: pathOf([...parent, before]) }),
      problem: cutMark(key, span, comma, cell.text),
    };
  }
  if (known === undefined) return { path, problem: { code: 'name.unreadable', span, facts: { name: key } } };
  const suggestion = nearest(key, known);
  const problem = { code: 'cell.key' as const, span, facts: { key, place: placeName(parent, cell) } };
  return {
    path,
    problem: suggestion === undefined ? problem : { ...problem, suggestion, fix: { span, text: suggestion } },
  };
}

/** A mark that a comma cut in two: a decimal comma, or one between its two lengths. */
function cutMark(key: string, span: Span, comma: number, text: string): Problem {
  const whole = /(?<!\d)\d+$/.exec(text.slice(0, comma))?.[0];
  const decimals = comma + 1 === span.start ? /^\d+/.exec(key)?.[0] : undefined;
  if (whole === undefined || decimals === undefined) {
    return { code: 'cell.flowMark', span, facts: { key }, fix: { span: { start: comma, end: span.start }, text: ' ' } };
  }
  const number = { start: comma - whole.length, end: span.start + decimals.length };
  const fix = { span: number, text: `${whole}.${decimals}` };
  return { code: 'quantity.decimalComma', span: number, facts: { text: `${whole},${decimals}` }, fix };
}

/** `2.0 down`, from `{near: 1.5 right, 2.0 down}`. */
function isRestOfMark(key: string): boolean {
  return /^\s*[\d.+-].*\b(left|right|up|down|front|rear)\b/.test(key);
}

function ofWord(issue: z.core.$ZodIssueInvalidValue, path: readonly PropertyKey[], cell: Written): Misfit {
  const value = valueAt(cell.tree, path);
  if (typeof value !== 'string') return ofShape(issue.message, path, cell);
  const words = issue.values.map(String);
  const suggestion = nearest(value, words);
  const span = spanAt(pathOf(path), cell.places);
  const problem = { code: 'cell.word' as const, span, facts: { word: short(value), words: words.join(', ') } };
  return {
    path: pathOf(path),
    problem: suggestion === undefined ? problem : { ...problem, suggestion, fix: { span, text: suggestion } },
  };
}

function ofShape(expected: string, path: readonly PropertyKey[], cell: Written): Misfit {
  const place = placeName(path, cell);
  const key = String(path.at(-1));
  if (path.length > 0 && !cell.places.has(pathOf(path))) {
    const parent = path.slice(0, -1);
    const holder = cell.places.get(parent.length === 0 ? pathTo(cell.kind) : pathOf(parent));
    const span = holder?.key ?? holder?.span ?? spanAt(ROOT, cell.places);
    return {
      path: pathOf(path),
      problem: { code: 'cell.missing', span, facts: { key, place: placeName(parent, cell) } },
    };
  }
  const value = valueAt(cell.tree, path);
  const span = spanAt(pathOf(path), cell.places);
  const isBlank = path.length > 0 && value === null;
  return {
    path: pathOf(path),
    problem: isBlank
      ? { code: 'cell.blank', span, facts: { place, wanted: expected } }
      : { code: 'cell.shape', span, facts: { place, wanted: expected, found: description(value) } },
  };
}

/** A reader's problem, with offsets in the cell's text if the scalar appears there exactly. */
function ofScalar({ code, from, to, facts, fix }: QuantityProblem, path: Path, cell: Written): Misfit {
  return { path, problem: onText(code as FindingCode, facts, path, cell, { from, to, fix }) };
}

/** The text at the place is a fact of every problem; a reader's fact `suggestion` becomes the problem's suggestion. */
export function onText(
  code: FindingCode,
  { suggestion, ...facts }: Readonly<Record<string, string>>,
  path: Path,
  { text, places }: Pick<Written, 'text' | 'places'>,
  within: { readonly from: number; readonly to: number; readonly fix?: string | undefined },
): Problem {
  const place = places.get(path);
  const exact = place?.letters !== undefined;
  const span = exact ? { start: place.letters + within.from, end: place.letters + within.to } : spanAt(path, places);
  return {
    code,
    span,
    facts: { text: short(text.slice(span.start, span.end)), ...facts },
    ...(suggestion !== undefined && { suggestion }),
    ...(exact && within.fix !== undefined && { fix: { span, text: within.fix } }),
  };
}

/** The span of a path, or of its nearest ancestor that has one. */
export function spanAt(path: Path, places: ReadonlyMap<Path, Place>): Span {
  const place = places.get(path);
  if (place !== undefined) return place.span;
  if (path === ROOT) return { start: 0, end: 0 };
  return spanAt(parentOf(path), places);
}

function placeName(path: readonly PropertyKey[], cell: Written): string {
  return path.length === 0
    ? `${/^[aeiou]/.test(cell.kind) ? 'an' : 'a'} ${cell.kind} cell`
    : `\`${pathInWords(pathOf(path))}\``;
}

/** The value in words, for a message. */
export function description(tree: Tree | undefined): string {
  if (typeof tree === 'string') return tree === '' ? 'an empty text' : `\`${short(tree)}\``;
  if (tree === null || tree === undefined) return 'nothing';
  if (Array.isArray(tree)) return tree.length === 0 ? 'an empty list' : 'a list';
  return 'a mapping';
}

function valueAt(tree: Tree | undefined, path: readonly PropertyKey[]): Tree | undefined {
  return path.reduce<Tree | undefined>(
    (at, key) => (at !== null && typeof at === 'object' ? (at as Record<PropertyKey, Tree>)[key] : undefined),
    tree,
  );
}

function pathOf(keys: readonly PropertyKey[]): Path {
  return pathTo(...keys.map(String));
}

function short(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > 60 ? `${line.slice(0, 59)}…` : line;
}
