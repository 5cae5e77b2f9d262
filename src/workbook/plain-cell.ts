/**
 * The short way to a cell's tree, several times as fast as by tokens and nodes: mappings, lists, blocks of text, and texts that
 * are plain or simply quoted. What is YAML is not decided here: whatever is rarer (an anchor, a tag, an escape, a text over
 * several lines, a key twice or without a value …) or may be wrong is left to the library, and what is read here is read as
 * the library reads it.
 */
import type { Span } from '../model/index.ts';
import { trimmed } from './stretches.ts';
import { join, type Place, type Read, type Tree } from './tree.ts';

/** Undefined for a text that is not as plain as that. */
export function readPlainCell(text: string): Read | undefined {
  if (text.length > LONGEST || UNUSUAL.test(text)) return undefined;
  const reading = new PlainReading(text);
  const tree = reading.whole();
  return tree === undefined ? undefined : { tree, places: reading.places, problems: [] };
}

/** Characters: what is longer may hold more values than a cell may have. */
const LONGEST = 100_000;
/** Control characters, and blanks that are no spaces. */
const UNUSUAL = /[^\S \r\n]|[\0-\x08\x0e-\x1f\x7f-\x9f]/;

/** Lines that are blank or a comment, and the indentation of the next. */
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
/** Its first line says how far all are indented. */
const BLOCK_TEXT = /\|\r?\n( +)(?=\S).*(?:(?:\r?\n)+\1.*)*/y;
const BLANKS_ALONE = /^ +\r?$/m;

type TreeMap = Record<string, Tree>;

/** Each method reads on from where the last one ended. It gives undefined, and the reading is over, where the text is not plain. */
class PlainReading {
  readonly places = new Map<string, Place>();
  private readonly text: string;
  private at = 0;
  /** Where the last value ended, with a comment on its line: so far reach the collections that end with it. */
  private end = 0;
  /** Of the next line, −1 at the end of the text; and whether there are comments above it. */
  private indent = -1;
  private skipped = '';
  /** Within a key of the user's own, where nothing has a place. */
  private isOwn = false;

  constructor(text: string) {
    this.text = text;
  }

  whole(): Tree | undefined {
    this.skip();
    const tree = this.indent === 0 ? this.blockMap(0, '', undefined) : undefined;
    return this.indent < 0 ? tree : undefined;
  }

  private match(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text)?.[0];
    if (found !== undefined) this.at += found.length;
    return found;
  }

  private isAt(letter: string): boolean {
    return this.text[this.at] === letter;
  }

  /** To the next line that says something. */
  private skip(): void {
    this.skipped = this.match(GAP)!;
    this.indent = this.at === this.text.length ? -1 : this.skipped.length - this.skipped.lastIndexOf('\n') - 1;
  }

  private place<T extends Tree>(path: string, span: Span, key: Span | undefined, tree: T): T {
    if (!this.isOwn) this.places.set(path, { span, key, letters: undefined, plain: false });
    return tree;
  }

  /** A comment below the last value belongs to the whole cell, or the library knows where. */
  private closed<T extends Tree>(path: string, start: number, key: Span | undefined, tree: T): T | undefined {
    const isBelow = this.skipped.includes('#') && (path !== '' || /^ +#/m.test(this.skipped));
    return isBelow ? undefined : this.place(path, trimmed(this.text, start, this.end), key, tree);
  }

  private blockMap(indent: number, path: string, key: Span | undefined): Tree | undefined {
    const start = this.at;
    const tree: TreeMap = Object.create(null);
    do {
      if (!this.pair(tree, path, (inside, at) => this.below(indent, inside, at))) return undefined;
    } while (this.indent === indent);
    return this.indent > indent ? undefined : this.closed(path, start, key, tree);
  }

  private blockList(indent: number, path: string, key: Span | undefined): Tree | undefined {
    const start = this.at;
    const list: Tree[] = [];
    while (this.indent === indent) {
      const dash = this.match(DASH);
      if (dash === undefined) break;
      const item = this.item(indent + dash.length, join(path, list.length));
      if (item === undefined) return undefined;
      list.push(item);
    }
    return list.length === 0 || this.indent > indent ? undefined : this.closed(path, start, key, list);
  }

  private item(indent: number, path: string): Tree | undefined {
    KEY.lastIndex = this.at;
    return KEY.test(this.text) ? this.blockMap(indent, path, undefined) : this.line(path, undefined);
  }

  /** @param value reads the value of the key at this path and place */
  private pair(tree: TreeMap, path: string, value: (path: string, key: Span) => Tree | undefined): boolean {
    const start = this.at;
    const name = this.match(KEY);
    if (name === undefined || Object.hasOwn(tree, name)) return false;
    const key = { start, end: this.at++ };
    const { isOwn } = this;
    const isRead = !name.startsWith('x-');
    this.isOwn ||= !isRead;
    const found = value(join(path, name), key);
    this.isOwn = isOwn;
    if (found !== undefined && isRead) tree[name] = found;
    return found !== undefined;
  }

  /** What stands behind a key in a block, on its line or below. */
  private below(indent: number, path: string, key: Span): Tree | undefined {
    if (this.match(NOTHING) === undefined) {
      this.match(SPACES);
      return this.isAt('|') ? this.blockText(indent, path, key) : this.line(path, key);
    }
    this.skip();
    if (this.isAt('-')) return this.indent >= indent ? this.blockList(this.indent, path, key) : undefined;
    return this.indent > indent ? this.blockMap(this.indent, path, key) : undefined;
  }

  private blockText(indent: number, path: string, key: Span): Tree | undefined {
    const start = this.at;
    const block = this.match(BLOCK_TEXT);
    if (block === undefined || BLANKS_ALONE.test(block)) return undefined;
    const [, ...lines] = block.split(/\r?\n/);
    const inner = lines[0]!.search(/\S/);
    if (inner <= indent || !this.ended()) return undefined;
    const text = lines.map((line) => `${line.slice(inner)}\n`).join('');
    return this.place(path, trimmed(this.text, start, this.end), key, text);
  }

  /** A value that is the last thing on its line. */
  private line(path: string, key: Span | undefined): Tree | undefined {
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

  private value(path: string, key: Span | undefined, plain: RegExp): Tree | undefined {
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

  private flowMap(path: string, key: Span | undefined): Tree | undefined {
    const tree: TreeMap = Object.create(null);
    const pair = () =>
      this.pair(tree, path, (inside, at) => {
        this.match(SPACES);
        return this.value(inside, at, PLAIN_IN_BRACKETS);
      });
    return this.enclosed('}', pair, path, key, tree);
  }

  private flowList(path: string, key: Span | undefined): Tree | undefined {
    const list: Tree[] = [];
    const item = () => {
      const value = this.value(join(path, list.length), undefined, PLAIN_IN_BRACKETS);
      if (value !== undefined) list.push(value);
      return value !== undefined;
    };
    return this.enclosed(']', item, path, key, list);
  }

  /** @param one reads the next pair or item */
  private enclosed(
    close: string,
    one: () => boolean,
    path: string,
    key: Span | undefined,
    tree: Tree,
  ): Tree | undefined {
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
