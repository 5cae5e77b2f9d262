/**
 * Splits a quantity's text into tokens. It precedes mathjs, which would read `in` as an operator and `+-` as a minus,
 * and it defines the number forms of the format: a decimal point only, no thousands separators. A number with a comma
 * becomes a token of its own that never counts as a value.
 */

export type TokenKind =
  | 'number'
  | 'comma number'
  | 'word'
  | 'plusminus'
  | 'operator'
  | 'open'
  | 'close'
  | 'comma'
  | 'other';

export interface Token {
  readonly kind: TokenKind;
  /** as written, except that `−` is `-` and `×` is `*` */
  readonly text: string;
  readonly from: number;
  readonly to: number;
}

const KINDS: readonly TokenKind[] = [
  'comma number',
  'number',
  'word',
  'plusminus',
  'operator',
  'open',
  'close',
  'comma',
  'other',
];

const NEXT = new RegExp(
  [
    String.raw`(\d+(?:,\d+)+(?:\.\d+)?)`,
    String.raw`((?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)`,
    String.raw`([A-Za-z_µμ][\wµμ]*(?:\.[A-Za-z_]\w*)*|[%°º"″”])`,
    String.raw`(±|\+\/[-−]|\+[-−])`,
    `([-+*/−×])`,
    String.raw`(\()`,
    String.raw`(\))`,
    `(,)`,
    String.raw`(\S)`,
  ].join('|'),
  'gu',
);

/**
 * The tokens of a text, in order; blanks separate them and are dropped. Every other character is in exactly one token.
 */
export function tokens(text: string): Token[] {
  const result: Token[] = [];
  for (const match of text.matchAll(NEXT)) {
    const kind = KINDS[match.findIndex((group, i) => i > 0 && group !== undefined) - 1]!;
    const written = match[0];
    const plain = written === '−' ? '-' : written === '×' ? '*' : written;
    result.push({ kind, text: plain, from: match.index, to: match.index + written.length });
  }
  return result;
}

export function isWhole(token: Token | undefined): token is Token {
  return token?.kind === 'number' && /^\d+$/.test(token.text);
}
