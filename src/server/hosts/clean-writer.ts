/**
 * A message writer that escapes control characters and bidirectional controls in every message to the client, because a
 * terminal would obey them. All text leaves the server here, whichever part of a workbook it quotes.
 */
import type { Message, MessageWriter } from 'vscode-languageserver';
import { harmless, harmlessLines } from '../../model/index.ts';

/** Keys whose values stay exact: text that goes into the file, addresses, places in a cell, numbers. */
const EXACT: ReadonlySet<string> = new Set(['newText', 'cell', 'uri', 'target', 'href', 'path', 'arguments', 'data']);
/** Keys whose values a client shows on one line. */
const IN_ONE_LINE: ReadonlySet<string> = new Set(['label', 'name', 'title', 'detail', 'containerName', 'brief']);

export function cleanWriter(writer: MessageWriter): MessageWriter {
  return {
    onError: (...listening) => writer.onError(...listening),
    onClose: (...listening) => writer.onClose(...listening),
    write: (message) => writer.write(cleaned(message, '') as Message),
    end: () => writer.end(),
    dispose: () => writer.dispose(),
  };
}

/** The value as it is sent under a key. */
function cleaned(value: unknown, key: string): unknown {
  if (EXACT.has(key)) return value;
  if (typeof value === 'string') return IN_ONE_LINE.has(key) ? harmless(value) : harmlessLines(value);
  if (Array.isArray(value)) return value.map((one) => cleaned(one, key));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, cleaned(inner, name)]));
}
