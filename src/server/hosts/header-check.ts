/**
 * Checks the headers of the messages that come in over a stream. After a malformed header the beginning of the next
 * message is unknown: the server would wait for ever. The reader of the library reports only some of them.
 */
import { harmless } from '../../model/index.ts';

/** Bytes: eight times the largest workbook that is read. */
const LONGEST_BODY = 256 * 1024 * 1024;
/** Characters. */
const LONGEST_LINE = 1000;

/** The beginning of a header line: nothing yet, or a name, a colon and a value. */
const BEGUN = /^(?:[\w-]+(?::.*)?)?\r?$/;

export class HeaderCheck {
  /** The header line that is being read. */
  private line = '';
  private length: number | undefined;
  /** Bytes of the message's content that are still to come. */
  private content = 0;

  /** Why the input is malformed, in half a sentence; undefined while it is well-formed. */
  wrongIn(chunk: Uint8Array): string | undefined {
    for (let at = 0; at < chunk.length; ) {
      const content = Math.min(this.content, chunk.length - at);
      this.content -= content;
      at += content;
      const wrong = at < chunk.length ? this.wrongWith(String.fromCharCode(chunk[at++]!)) : undefined;
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  }

  /** The same at the end of the input. */
  wrongAtEnd(): string | undefined {
    const isBetween = this.line === '' && this.length === undefined && this.content === 0;
    return isBetween ? undefined : 'the input ends within it';
  }

  private wrongWith(character: string): string | undefined {
    const isReturned = this.line.endsWith('\r');
    this.line += character;
    if (isReturned !== (character === '\n')) return 'a header line does not end with CR LF';
    if (isReturned) return this.wrongLine(this.line.slice(0, -2));
    const isHeader = BEGUN.test(this.line) && this.line.length <= LONGEST_LINE;
    return isHeader ? undefined : `\`${harmless(this.line)}\` is not a header`;
  }

  /** A complete line; an empty one ends the header. */
  private wrongLine(line: string): string | undefined {
    this.line = '';
    if (line !== '') return this.wrongField(line);
    if (this.length === undefined) return 'the header has no Content-Length';
    [this.content, this.length] = [this.length, undefined];
    return undefined;
  }

  private wrongField(line: string): string | undefined {
    const [, name, value] = /^([\w-]+):(.*)$/.exec(line) ?? [];
    if (name === undefined) return `\`${harmless(line)}\` is not a header`;
    if (name.toLowerCase() !== 'content-length') return undefined;
    this.length = /^\s*\d+\s*$/.test(value!) ? Number(value) : Infinity;
    if (this.length <= LONGEST_BODY) return undefined;
    return `\`${harmless(line)}\` is not a number of bytes up to ${LONGEST_BODY}`;
  }
}
