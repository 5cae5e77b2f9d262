/**
 * Reads a cell's text into a plain tree of texts, maps and lists, with their places. The YAML failsafe schema keeps
 * `0755`, `no` and `1e3` as typed. The nodes are walked here instead of being converted by the parser, which would
 * throw on a bad alias and grow without bound on a chain of them.
 */
import {
  Composer,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  Parser,
  Schema,
  type Alias,
  type CST,
  type Document,
  type Node,
  type Pair,
  type Scalar,
  type YAMLMap,
} from 'yaml';
import { child, ROOT, type Path, type Span } from '../model/index.ts';
import { MOST_PROBLEMS, type Problem } from './problem.ts';
import { afterKey, firstLine, trimmed, visible, within } from './stretches.ts';
import { MOST_VALUES, type Place, type Read, type Tree } from './tree.ts';

/** Reads any text with the library's parser. */
export function readAnyCell(text: string): Read {
  const document = parsed(text);
  const walk = new Walk(text);
  if (document === undefined) return walk.result(null);
  const [first] = document.errors;
  if (first !== undefined) {
    const span = visible(text, ...first.pos);
    if (first.code === 'TAG_RESOLVE_FAILED')
      walk.report({ code: 'yaml.tag', span, facts: { tag: text.slice(span.start, span.end) } });
    else walk.report({ code: 'yaml.syntax', span, facts: { reason: sentence(first.message) } });
    walk.places.set(ROOT, wholeCell(firstLine(text)));
    return walk.result(undefined);
  }
  return walk.result(walk.node(document.contents, ROOT, undefined));
}

/** The place of a cell in which no other place is known. */
function wholeCell(span: Span): Place {
  return { span, key: undefined, letters: undefined, plain: false };
}

/** One for all cells: creating it costs more than reading a short one. */
const FAILSAFE = new Schema({ schema: 'failsafe' });

/** The document of a cell; undefined for an empty text. */
function parsed(text: string): Document.Parsed | undefined {
  const composer = new Composer({ schema: FAILSAFE, uniqueKeys: false, prettyErrors: false, logLevel: 'silent' });
  const [first] = composer.compose(untilTooManyErrors(new Parser().parse(text)), true, text.length);
  return first as Document.Parsed | undefined;
}

/**
 * Stops after too many errors: a text that is no YAML can have one at every character, and only the first is reported.
 */
function* untilTooManyErrors(tokens: Iterable<CST.Token>): Generator<CST.Token> {
  let errors = 0;
  for (const token of tokens) {
    yield token;
    if (token.type === 'error' && ++errors > MOST_PROBLEMS) return;
  }
}

/** The result for a cell that is too large to be read. */
export function tooMuch(text: string, what: string): Read {
  const span = firstLine(text);
  return { places: new Map([[ROOT, wholeCell(span)]]), problems: [{ code: 'cells.limit', span, facts: { what } }] };
}

class Walk {
  readonly places = new Map<Path, Place>();
  readonly problems: Problem[] = [];
  private readonly text: string;
  private readonly anchors = new Map<string, Node>();
  private readonly open = new Set<Node>();
  private nodes = 0;
  /** The alias whose target is being walked: findings in the target are reported at the alias. */
  private alias: Span | undefined;

  constructor(text: string) {
    this.text = text;
  }

  report(problem: Problem): void {
    if (this.problems.length < MOST_PROBLEMS) this.problems.push(problem);
  }

  result(tree: Tree | undefined): Read {
    const { places, problems } = this;
    if (this.nodes <= MOST_VALUES) return tree === undefined ? { places, problems } : { tree, places, problems };
    return tooMuch(this.text, `more than ${MOST_VALUES} values`);
  }

  node(node: unknown, path: Path, key: Span | undefined): Tree {
    if (++this.nodes > MOST_VALUES) return null;
    if (isAlias(node)) return this.follow(node, path, key);
    if (!isScalar(node) && !isMap(node) && !isSeq(node)) return this.place(path, afterKey(key), key, null);
    if (node.anchor !== undefined) this.anchors.set(node.anchor, node);
    if (node.tag !== undefined && this.alias === undefined) this.tag(node);
    if (isScalar(node)) return this.scalar(node, path, key);
    this.open.add(node);
    const span = this.spanOf(node);
    const tree = isMap(node)
      ? this.map(node, path)
      : node.items.map((item, i) => this.node(item, child(path, i), undefined));
    this.open.delete(node);
    return this.place(path, span, key, tree);
  }

  private map(map: YAMLMap, path: Path): Tree {
    const tree: Record<string, Tree> = Object.create(null);
    for (const pair of map.items) {
      const key = this.keyOf(pair);
      if (key === undefined) continue;
      const inside = child(path, key.text);
      if (key.text.startsWith('x-')) {
        this.noteAnchors(pair.value);
        continue;
      }
      if (Object.hasOwn(tree, key.text)) {
        const what = path === ROOT ? 'cell' : 'mapping';
        this.report({ code: 'yaml.duplicate', span: key.span, facts: { key: key.text, what } });
        continue;
      }
      tree[key.text] = this.node(pair.value, inside, key.span);
    }
    return tree;
  }

  /** Values under user-defined `x-` keys are not read, but aliases may refer to them. */
  private noteAnchors(node: unknown): void {
    if (!isScalar(node) && !isMap(node) && !isSeq(node)) return;
    if (node.anchor !== undefined) this.anchors.set(node.anchor, node);
    if (isMap(node)) node.items.forEach(({ value }) => this.noteAnchors(value));
    if (isSeq(node)) node.items.forEach((item) => this.noteAnchors(item));
  }

  /** A key's text and place; a key that is not a text, and the merge key, are reported and left out. */
  private keyOf(pair: Pair): { text: string; span: Span } | undefined {
    const { key } = pair;
    const span =
      key !== null && typeof key === 'object' && 'range' in key
        ? this.spanOf(key as Node)
        : (this.alias ?? firstLine(this.text));
    if (isScalar(key) && typeof key.value === 'string' && key.value !== '') {
      if (key.anchor !== undefined) this.anchors.set(key.anchor, key);
      if (key.value === '__proto__') {
        this.report({ code: 'name.unreadable', span, facts: { name: key.value } });
        return undefined;
      }
      if (key.value !== '<<') return { text: key.value, span };
      this.report({ code: 'yaml.merge', span, facts: {} });
      return undefined;
    }
    const found =
      isScalar(key) || key === null ? 'nothing' : isAlias(key) ? 'an alias' : isMap(key) ? 'a mapping' : 'a list';
    this.report({ code: 'cell.shape', span, facts: { place: 'A key', wanted: 'a name', found } });
    return undefined;
  }

  private follow(alias: Alias, path: Path, key: Span | undefined): Tree {
    const span = this.spanOf(alias);
    const target = this.anchors.get(alias.source);
    if (target === undefined || this.open.has(target)) {
      this.report({ code: 'yaml.alias', span, facts: { name: alias.source } });
      return this.place(path, span, key, null);
    }
    const outer = this.alias;
    this.alias = span;
    const tree = this.node(target, path, key);
    this.alias = outer;
    return tree;
  }

  private scalar(node: Scalar, path: Path, key: Span | undefined): Tree {
    const span = this.spanOf(node);
    const text = String(node.value);
    const plain = node.type === 'PLAIN';
    if (plain && text === '') return this.place(path, key === undefined ? span : afterKey(key), key, null);
    const letters = plain ? span.start : span.start + 1;
    const asRead =
      this.alias === undefined &&
      this.text.startsWith(text, letters) &&
      (plain || this.text.length > letters + text.length);
    return this.place(path, span, key, text, asRead ? letters : undefined, plain);
  }

  // biome-ignore lint/complexity/useMaxParams: one entry of the table of places
  private place<T extends Tree>(
    path: Path,
    span: Span,
    key: Span | undefined,
    tree: T,
    letters?: number,
    plain = false,
  ): T {
    this.places.set(path, { span, key, letters, plain });
    return tree;
  }

  private spanOf(node: Node): Span {
    if (this.alias !== undefined) return this.alias;
    const [start, end] = node.range ?? [0, 0];
    return trimmed(this.text, start, end);
  }

  /** A tag precedes its node; it is searched for there, because nodes do not contain its place. */
  private tag(node: Node): void {
    const { start, end } = this.spanOf(node);
    const tag = /![^\s]*(?=[^!]*$)/.exec(this.text.slice(Math.max(0, start - 200), start));
    const from = tag === null ? start : start - (tag.input.length - tag.index);
    const span = within(this.text, from, tag === null ? end : from + tag[0].length);
    this.report({ code: 'yaml.tag', span, facts: { tag: this.text.slice(span.start, span.end).slice(0, 60) } });
  }
}

/** The parser's message as one sentence that ends with a full stop. */
function sentence(message: string): string {
  const line = message.split('\n', 1)[0]!.trim();
  return /[.!?]$/.test(line) ? line : `${line}.`;
}
