/**
 * A text's tokens and their offsets. The lexer does not recurse and distinguishes a `#` or a bracket in a quoted text
 * from a real one; it takes a third of the time of a parse, so it is used only where needed.
 */
import { Lexer } from 'yaml';

export interface Lexed {
  readonly token: string;
  readonly start: number;
  /** The text of a value, in quotes, in a block or plain. */
  readonly scalar: boolean;
}

/** Control tokens of the lexer, which are no characters of the text: a document, the end of a flow, a scalar. */
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
