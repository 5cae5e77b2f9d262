/** Colour, only on a terminal and unless NO_COLOR forbids it (no-color.org). */
import { styleText } from 'node:util';

export type Style = Parameters<typeof styleText>[0];
export type Paint = (style: Style, text: string) => string;

export function paintFor(
  stream: { readonly isTTY?: boolean },
  environment: Readonly<Record<string, string | undefined>>,
): Paint {
  const coloured = stream.isTTY === true && !environment['NO_COLOR'] && environment['TERM'] !== 'dumb';
  return coloured ? (style, text) => styleText(style, text) : (_, text) => text;
}
