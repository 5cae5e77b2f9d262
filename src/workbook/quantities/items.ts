/**
 * Groups tokens into the items of an expression: whole quantities (`1 1/8 in`), names, operators, brackets. A number
 * and its unit bind tighter than any operator, so that `90 mm / 2 mm` is 45 and `3/8 in` is a length; the parser never
 * sees a unit.
 */
import { nearest } from '../../model/index.ts';
import { problem, quoted, type QuantityProblem } from './reading.ts';
import { isWhole, tokens, type Token } from './tokens.ts';
import {
  dimensionName,
  NUMBER,
  unitMeant,
  unitNamed,
  unitsOf,
  type Dimension,
  type Dimensioned,
  type Unit,
} from './units.ts';

export type Item = QuantityItem | SignItem;

export interface QuantityItem extends Dimensioned {
  readonly kind: 'quantity';
  /** absent for a number without a unit, and for the value of a name */
  readonly unit?: Unit;
  /** a number without any unit: it gets the reader's default */
  readonly bare: boolean;
  readonly from: number;
  readonly to: number;
}

export interface SignItem {
  readonly kind: 'operator' | 'open' | 'close' | 'sqrt' | 'plusminus';
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

/** The names that an expression may use; a Map fits. */
export interface Names {
  get(name: string): Dimensioned | undefined;
  keys(): Iterable<string>;
}

/**
 * The items of `text`, with all problems. A wrong number or word still yields an item, so that the rest is checked in
 * context.
 * @param expected the expected dimension, only for messages
 * @param names if given, words are names first, and may also stand for one of a unit
 */
export function itemsOf(
  text: string,
  expected: Dimension | undefined,
  names: Names | undefined,
): { items: Item[]; problems: QuantityProblem[] } {
  const reader = new ItemReader(text, expected, names);
  reader.run();
  return { items: reader.items, problems: reader.problems };
}

class ItemReader {
  readonly items: Item[] = [];
  readonly problems: QuantityProblem[] = [];
  private readonly tokens: readonly Token[];
  private readonly text: string;
  private readonly expected: Dimension | undefined;
  private readonly names: Names | undefined;
  private at = 0;

  constructor(text: string, expected: Dimension | undefined, names: Names | undefined) {
    this.tokens = tokens(text);
    this.text = text;
    this.expected = expected;
    this.names = names;
  }

  run(): void {
    while (this.at < this.tokens.length) {
      const token = this.tokens[this.at]!;
      if (token.kind === 'number') this.number(token);
      else if (token.kind === 'comma number') this.commaNumber(token);
      else if (token.kind === 'word') this.word(token);
      else if (token.kind === 'comma' || token.kind === 'other') this.strange(token);
      else this.sign(token.kind, token);
    }
  }

  /** `1.5`, `3/8` or `1 1/8`, and the unit after it. */
  private number(first: Token): void {
    const [second, third, fourth] = this.tokens.slice(this.at + 1, this.at + 4);
    let value = Number(first.text);
    let last = first;
    if (isWhole(first) && isWhole(second) && third?.text === '/' && isWhole(fourth)) {
      value += Number(second.text) / Number(fourth.text);
      last = fourth;
    } else if (isWhole(first) && second?.text === '/' && isWhole(third) && !this.spoilsDivision(third)) {
      value /= Number(third.text);
      last = third;
    }
    this.checkMixed(first);
    this.checkThousands(first);
    this.at = this.tokens.indexOf(last, this.at) + 1;
    this.withUnit(value, first.from, last);
  }

  /**
   * In `90 mm / 3/4` the fraction is no literal: divisions are evaluated from left to right. With a unit, `/ 3/4 in`,
   * it is.
   */
  private spoilsDivision(last: Token): boolean {
    const previous = this.items.at(-1);
    const unit = this.tokens[this.tokens.indexOf(last, this.at) + 1];
    return previous?.kind === 'operator' && previous.text === '/' && unit?.kind !== 'word';
  }

  private withUnit(value: number, from: number, last: Token): void {
    const word = this.tokens[this.at];
    const per = word && this.perMinute(word);
    if (word?.kind !== 'word' || word.text === 'sqrt' || (!per && this.isName(word.text))) {
      this.items.push({ kind: 'quantity', value, dimension: NUMBER, bare: true, from, to: last.to });
      return;
    }
    const unit = per ? unitNamed('l/min') : unitNamed(word.text);
    this.at += per ? 3 : 1;
    if (!unit) this.unknownUnit(word);
    const { factor, dimension } = unit ?? { factor: 1, dimension: NUMBER };
    const { to } = per ?? word;
    const item = { kind: 'quantity', value: value * factor, dimension, bare: false, from, to } as const;
    this.items.push(unit ? { ...item, unit } : item);
  }

  /** A name where a unit may stand: units take precedence after a number. */
  private isName(word: string): boolean {
    return this.names?.get(word) !== undefined && !unitNamed(word);
  }

  /** The end of `l/min`, which is one unit; a litre alone is none, so `l` can be a name. */
  private perMinute(word: Token): Token | undefined {
    const [slash, minute] = this.tokens.slice(this.at + 1, this.at + 3);
    return word.text === 'l' && slash?.text === '/' && minute?.text === 'min' ? minute : undefined;
  }

  private unknownUnit(word: Token): void {
    const meant = unitMeant(word.text);
    const known = unitsOf(this.expected);
    const facts = {
      unit: quoted(word.text),
      wanted: expectedName(this.expected),
      known,
      ...(meant && { suggestion: meant }),
    };
    this.problems.push(problem('quantity.unit', word.from, word.to, facts, meant));
  }

  private word(word: Token): void {
    const { from, to } = word;
    if (!/^[A-Za-z_µμ]/.test(word.text)) return this.strange(word);
    if (word.text === 'sqrt') {
      this.sign('sqrt', word);
      return;
    }
    this.at++;
    const unit = unitNamed(word.text);
    if (unit && this.items.at(-1)?.kind === 'close') {
      this.items.push({ kind: 'operator', text: '*', from, to: from });
      this.items.push({ kind: 'quantity', value: unit.factor, dimension: unit.dimension, unit, bare: false, from, to });
      return;
    }
    const known = this.names?.get(word.text);
    const meant: Dimensioned | undefined =
      known ?? (this.names && unit && { value: unit.factor, dimension: unit.dimension });
    if (!meant) this.unknownWord(word);
    const { value, dimension, components } = meant ?? { value: 0, dimension: NUMBER };
    this.items.push({ kind: 'quantity', value, dimension, components, bare: false, from, to });
  }

  private unknownWord(word: Token): void {
    if (!this.names) {
      this.problems.push(problem('quantity.unreadable', word.from, word.to, this.unreadable()));
      return;
    }
    const suggestion = nearest(word.text, this.names.keys());
    const facts = { name: quoted(word.text), ...(suggestion && { suggestion }) };
    this.problems.push(problem('quantity.name', word.from, word.to, facts, suggestion));
  }

  private commaNumber(token: Token): void {
    const { text, from, to } = token;
    const decimal = /^\d+,\d+$/.test(text) && !/^[1-9]\d{0,2},\d{3}$/.test(text);
    this.problems.push(
      decimal
        ? problem('quantity.decimalComma', from, to, { text: quoted(text) }, text.replace(',', '.'))
        : problem('quantity.thousands', from, to, { text: quoted(text) }),
    );
    this.at++;
    this.withUnit(0, from, token);
  }

  /** Some write `1-1/8 in` for one and an eighth; as a difference it would be silently wrong. */
  private checkMixed(first: Token): void {
    const parts = this.tokens.slice(this.at, this.at + 5);
    const [whole, dash, a, slash, b] = parts;
    const touching = parts.every((part, i) => i === 0 || parts[i - 1]!.to === part.from);
    if (!isWhole(whole) || dash?.text !== '-' || !isWhole(a) || slash?.text !== '/' || !isWhole(b) || !touching) return;
    const text = this.text.slice(first.from, b.to);
    this.problems.push(problem('quantity.mixed', first.from, b.to, { text }, `${whole.text} ${a.text}/${b.text}`));
  }

  /** `1 500` */
  private checkThousands(first: Token): void {
    const [a, slash] = this.tokens.slice(this.at + 1, this.at + 3);
    if (!/^[1-9]\d{0,2}$/.test(first.text) || !a || !/^\d{3}$/.test(a.text) || slash?.text === '/') return;
    this.problems.push(problem('quantity.thousands', first.from, a.to, { text: this.text.slice(first.from, a.to) }));
  }

  private strange(token: Token): void {
    this.at++;
    if (token.text === '^') return this.power(token);
    const plain = PLAIN_SIGNS[token.text] ?? vulgarFraction(token.text);
    const blank = plain !== undefined && /\d/.test(plain) && /\d/.test(this.text[token.from - 1] ?? '') ? ' ' : '';
    const fix = plain === undefined ? undefined : blank + plain;
    const facts = { ...this.unreadable(), character: token.text };
    this.problems.push(problem('quantity.unreadable', token.from, token.to, facts, fix));
    if (blank !== '' || /\d/.test(plain ?? '')) this.withUnit(0, token.from, token);
  }

  private power({ from, to }: Token): void {
    const facts = { text: quoted(this.text), reason: '`^` is not supported; write the product, such as `2 mm * 2 mm`' };
    this.problems.push(problem('quantity.expression', from, to, facts));
  }

  private unreadable(): { text: string; wanted: string } {
    return { text: quoted(this.text), wanted: expectedName(this.expected) };
  }

  private sign(kind: SignItem['kind'], token: Token): void {
    this.at++;
    this.items.push({ kind, text: token.text, from: token.from, to: token.to });
  }
}

/** The expected dimension as a fact: `length`, …; `a quantity` if any will do. */
export function expectedName(expected: Dimension | undefined): string {
  return expected ? dimensionName(expected) : 'a quantity';
}

const PLAIN_SIGNS: Readonly<Record<string, string>> = { '–': '-', '—': '-', '÷': '/', '·': '*', '⋅': '*' };

/** `½` → `1/2` */
function vulgarFraction(character: string): string | undefined {
  const parts = character.normalize('NFKD').replace('⁄', '/');
  return /^\d\/\d$/.test(parts) ? parts : undefined;
}
