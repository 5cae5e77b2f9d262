/** Spaces within lines: none at the ends, one after a colon and a comma, none inside brackets. */
import { lexed, type Lexed } from './lexing.ts';

export function spaced(text: string): string {
  const tokens = [...lexed(text)];
  return tokens
    .map((one, i) =>
      isBlank(one) && !beginsLine(tokens[i - 1])
        ? between(tokens[i - 1]!, one, tokens[i + 1])
        : one.token + missing(one, tokens[i + 1]),
    )
    .join('');
}

function isBlank({ token, scalar }: Lexed): boolean {
  return !scalar && /^[ \t]+$/.test(token);
}

function endsLine(one: Lexed | undefined): boolean {
  return one === undefined || (!one.scalar && /^\r?\n/.test(one.token));
}

function beginsLine(before: Lexed | undefined): boolean {
  return before === undefined || /\n$/.test(before.token);
}

function between(before: Lexed, blank: Lexed, after: Lexed | undefined): string {
  if (endsLine(after)) return '';
  // Comments may be aligned in columns.
  if (isSign(after, '#')) return blank.token;
  if (isSign(before, '{[')) return '';
  if (isSign(after, '}]')) return isSign(before, ':') ? ' ' : '';
  if (isSign(after, ',') || isSign(after, ':')) return isSign(before, ':') ? ' ' : '';
  return ' ';
}

function missing(one: Lexed, after: Lexed | undefined): string {
  return isSign(one, ',') && after !== undefined && !endsLine(after) && !isBlank(after) ? ' ' : '';
}

function isSign(one: Lexed | undefined, signs: string): boolean {
  return one !== undefined && !one.scalar && one.token !== '' && signs.includes(one.token[0]!);
}
