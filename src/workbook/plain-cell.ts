/**
 * A fast reader for simple cells, several times faster than tokens and nodes: mappings, lists, blocks of text, and
 * plain or simply quoted texts. It does not decide what is valid YAML: anything rarer (an anchor, a tag, an escape, a
 * text over several lines, a duplicate key or one without a value …) or possibly invalid is left to the library, and
 * what it reads, it reads like the library.
 */
import { child, ROOT, type Path, type Span } from '../model/index.ts';
import { trimmed } from './stretches.ts';
import { MOST_VALUES, type Place, type Read, type Tree } from './tree.ts';

/** Undefined for a text that is not simple enough. */
export function readPlainCell(text: string): Read | undefined {
  if (UNUSUAL.test(text)) return undefined;
  const reading = new PlainReading(text);
  const tree = reading.whole();
  if (tree === undefined || reading.places.size > MOST_VALUES) return undefined;
  return { tree, places: reading.places, problems: [] };
}
/** Control characters, and white space other than spaces. */
const UNUSUAL = /[^\S \r\n]|[\0-\x08\x0e-\x1f\x7f-\x9f]/;

/** Blank lines and comments, and the indentation of the next line. */
const GAP = /(?: *(?:#.*)?\r?\n)* *(?:#.*$)?/y;
const KEY = /[A-Za-z][\w.-]{0,40}(?: [\w.-]{1,40}){0,5}(?=:[ \r\n])/y;
const NOTHING = /(?: +#.*)? *\r?\n/y;
const DASH = /- +(?=[^\s#])/y;
const SPACES = / */y;
const COMMA = /, */y;
const COMMENT = /(?: +#.*)?/y;
const LINE_END = / *(?:\r?\n|$)/y;
const QUOTED = /"[^"\\\r\n]*"|'[^'\r\n]*'/y;
const PLAIN = /(?:[^\s\-?:,[\]{}#&*!|>'"%@`]|-(?=\S))(?:[^\s:]|:(?=\S)| +(?=[^\s#]))*/y;
const PLAIN_IN_BRACKETS =
  /(?:[^\s\-?:,[\]{}#&*!|>'"%@`]|-(?=[^\s,[\]{}]))(?:[^\s:,[\]{}]|:(?=[^\s,[\]{}])| +(?=[^\s#,[\]{}]))*/y;
/** The first line sets the indentation of all. */
const BLOCK_TEXT = /\|\r?\n( +)(?=\S).*(?:(?:\r?\n)+\1.*)*/y;
const BLANKS_ALONE = /^ +\r?$/m;

type TreeMap = Record<string, Tree>;

/**
 * Each method continues where the last one ended. It returns undefined, which ends the reading, if the text is not
 * simple.
 */
class PlainReading {
  readonly places = new Map<Path, Place>();
  private readonly text: string;
  private at = 0;
  /** The end of the last value, with a comment on its line: collections that end with it extend to here. */
  private end = 0;
  /** Indentation of the next line, −1 at the end of the text; and the comments above it. */
  private indent = -1;
  private skipped = '';
  /** Within a user-defined `x-` key, where no places are recorded. */
  private isOwn = false;

  constructor(text: string) {
    this.text = text;
  }

  whole(): Tree | undefined {
    this.skip();
    const tree = this.indent === 0 ? this.blockMap(0, ROOT, undefined) : undefined;
    return this.indent < 0 ? tree : undefined;
  }

  private match(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.at;
    const value = pattern.exec(this.text)?.[0];
    if (value !== undefined) this.at += value.length;
    return value;
  }

  private isAt(letter: string): boolean {
    return this.text[this.at] === letter;
  }

  /** To the next line that is neither blank nor a comment. */
  private skip(): void {
    this.skipped = this.match(GAP)!;
    this.indent = this.at === this.text.length ? -1 : this.skipped.length - this.skipped.lastIndexOf('\n') - 1;
  }

  private place<T extends Tree>(path: Path, span: Span, key: Span | undefined, tree: T): T {
    if (!this.isOwn) this.places.set(path, { span, key, letters: undefined, plain: false });
    return tree;
  }

  /** A comment below the last value belongs to the whole cell; elsewhere the library decides. */
  private closed<T extends Tree>(path: Path, start: number, key: Span | undefined, tree: T): T | undefined {
    const isBelow = this.skipped.includes('#') && (path !== ROOT || /^ +#/m.test(this.skipped));
    return isBelow ? undefined : this.place(path, trimmed(this.text, start, this.end), key, tree);
  }

  private blockMap(indent: number, path: Path, key: Span | undefined): Tree | undefined {
    const start = this.at;
    const tree: TreeMap = Object.create(null);
    do {
      if (!this.pair(tree, path, (inside, at) => this.below(indent, inside, at))) return undefined;
    } while (this.indent === indent);
    return this.indent > indent ? undefined : this.closed(path, start, key, tree);
  }

  private blockList(indent: number, path: Path, key: Span | undefined): Tree | undefined {
    const start = this.at;
    const list: Tree[] = [];
    while (this.indent === indent) {
      const dash = this.match(DASH);
      if (dash === undefined) break;
      const item = this.item(indent + dash.length, child(path, list.length));
      if (item === undefined) return undefined;
      list.push(item);
    }
    return list.length === 0 || this.indent > indent ? undefined : this.closed(path, start, key, list);
  }

  private item(indent: number, path: Path): Tree | undefined {
    KEY.lastIndex = this.at;
    return KEY.test(this.text) ? this.blockMap(indent, path, undefined) : this.line(path, undefined);
  }

  /** @param value reads the value of the key at this path and place */
  private pair(tree: TreeMap, path: Path, value: (path: Path, key: Span) => Tree | undefined): boolean {
    const start = this.at;
    const name = this.match(KEY);
    if (name === undefined || Object.hasOwn(tree, name)) return false;
    const key = { start, end: this.at++ };
    const { isOwn } = this;
    const isRead = !name.startsWith('x-');
    this.isOwn ||= !isRead;
    const subtree = value(child(path, name), key);
    this.isOwn = isOwn;
    if (subtree !== undefined && isRead) tree[name] = subtree;
    return subtree !== undefined;
  }

  /** The value of a key in a block, on its line or below. */
  private below(indent: number, path: Path, key: Span): Tree | undefined {
    if (this.match(NOTHING) === undefined) {
      this.match(SPACES);
      return this.isAt('|') ? this.blockText(indent, path, key) : this.line(path, key);
    }
    this.skip();
    if (this.isAt('-')) return this.indent >= indent ? this.blockList(this.indent, path, key) : undefined;
    return this.indent > indent ? this.blockMap(this.indent, path, key) : undefined;
  }

  private blockText(indent: number, path: Path, key: Span): Tree | undefined {
    const start = this.at;
    const block = this.match(BLOCK_TEXT);
    if (block === undefined || BLANKS_ALONE.test(block)) return undefined;
    const [, ...lines] = block.split(/\r?\n/);
    const inner = lines[0]!.search(/\S/);
    if (inner <= indent || !this.ended()) return undefined;
    const text = lines.map((line) => `${line.slice(inner)}\n`).join('');
    return this.place(path, trimmed(this.text, start, this.end), key, text);
  }

  /** A value that is the last on its line. */
  private line(path: Path, key: Span | undefined): Tree | undefined {
    const value = this.value(path, key, PLAIN);
    return value !== undefined && this.ended() ? value : undefined;
  }

  private ended(): boolean {
    this.end = this.at;
    if (this.match(COMMENT)) this.end = this.at;
    if (this.match(LINE_END) === undefined) return false;
    this.skip();
    return true;
  }

  private value(path: Path, key: Span | undefined, plain: RegExp): Tree | undefined {
    if (this.isAt('{')) return this.flowMap(path, key);
    if (this.isAt('[')) return this.flowList(path, key);
    const start = this.at;
    const isQuoted = this.isAt('"') || this.isAt("'");
    const source = this.match(isQuoted ? QUOTED : plain);
    if (source === undefined) return undefined;
    const letters = isQuoted ? start + 1 : start;
    if (!this.isOwn) this.places.set(path, { span: { start, end: this.at }, key, letters, plain: !isQuoted });
    return isQuoted ? source.slice(1, -1) : source;
  }

  private flowMap(path: Path, key: Span | undefined): Tree | undefined {
    const tree: TreeMap = Object.create(null);
    const pair = () =>
      this.pair(tree, path, (inside, at) => {
        this.match(SPACES);
        return this.value(inside, at, PLAIN_IN_BRACKETS);
      });
    return this.enclosed('}', pair, path, key, tree);
  }

  private flowList(path: Path, key: Span | undefined): Tree | undefined {
    const list: Tree[] = [];
    const item = () => {
      const value = this.value(child(path, list.length), undefined, PLAIN_IN_BRACKETS);
      if (value !== undefined) list.push(value);
      return value !== undefined;
    };
    return this.enclosed(']', item, path, key, list);
  }

  /** @param one reads the next pair or item */
  private enclosed(close: string, one: () => boolean, path: Path, key: Span | undefined, tree: Tree): Tree | undefined {
    const start = this.at++;
    this.match(SPACES);
    if (!this.isAt(close))
      do {
        if (!one()) return undefined;
        this.match(SPACES);
      } while (this.match(COMMA));
    if (!this.isAt(close)) return undefined;
    return this.place(path, { start, end: ++this.at }, key, tree);
  }
}
