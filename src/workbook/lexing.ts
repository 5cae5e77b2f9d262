/**
 * A text's tokens and where they stand. The lexer never recurses and tells a `#` or a bracket in a quoted text from a
 * real one; it costs a third of a parse, so it is asked only where a text gives reason.
 */
import { Lexer } from 'yaml';

export interface Lexed {
  readonly token: string;
  readonly start: number;
  /** The text of a value, whatever quotes or block it stands in. */
  readonly scalar: boolean;
}

/** The lexer's own signs, which stand for no character of the text: a document, the end of a flow, a scalar. */
const SCALAR = '\x1f';
const SIGNS = new Set(['\x02', '\x18', SCALAR]);

export function* lexed(text: string): Generator<Lexed> {
  let start = 0;
  let before = '';
  for (const token of new Lexer().lex(text)) {
    if (!SIGNS.has(token)) {
      yield { token, start, scalar: before === SCALAR || token[0] === '"' || token[0] === "'" };
      start += token.length;
    }
    before = token;
  }
}
