/** Malformed messages: each is answered or stops the server with a sentence; none leaves it running without answers. */
import fc from 'fast-check';
import type { ChildProcess } from 'node:child_process';
import { expect, test } from 'vitest';
import { HeaderCheck } from '../../src/server/hosts/header-check.ts';
import { startedWith } from './client.ts';

const PARAMS = { processId: null, rootUri: null, capabilities: {} };
const body = (id: number) => JSON.stringify({ jsonrpc: '2.0', id, method: 'initialize', params: PARAMS });
const message = (text: string, length: number | string = Buffer.byteLength(text)) =>
  `Content-Length: ${length}\r\n\r\n${text}`;

/** What is sent before a well-formed message, and the reason that the server gives. */
const MALFORMED: Readonly<Record<string, readonly [sent: string, said: string]>> = {
  'no Content-Length': [`Content-Type: application/json\r\n\r\n${body(1)}`, 'the header has no Content-Length'],
  'no header': [`\r\n${body(1)}`, 'the header has no Content-Length'],
  'a negative length': [message(body(1), -5), '`Content-Length: -5` is not a number of bytes up to 268435456'],
  NaN: [message(body(1), 'NaN'), '`Content-Length: NaN` is not a number of bytes'],
  'a length with more behind it': [message(body(1), '12 bytes'), '`Content-Length: 12 bytes` is not a number of bytes'],
  'no length': [message(body(1), ''), '`Content-Length: ` is not a number of bytes'],
  'an absurd length': [message(body(1), 99_999_999_999), '`Content-Length: 99999999999` is not a number of bytes'],
  'line feeds alone': [message(body(1)).replaceAll('\r\n', '\n'), 'a header line does not end with CR LF'],
  'returns alone': [message(body(1)).replaceAll('\r\n', '\r\r'), 'a header line does not end with CR LF'],
  'a length that is too small': [message(body(1), 40), 'is not a header'],
  'a length that is too large': [message(body(1), body(1).length + 5), 'the header has no Content-Length'],
  noise: ['hello server, are you there?', '`hello ` is not a header'],
  'noise that orders a terminal': ['\u001b[2J', '`\\u001b` is not a header'],
  'bytes that are no text': ['\u0000\u00ff\u00fe', '`\\u0000` is not a header'],
  'a name alone': [`Content-Length\r\n\r\n${body(1)}`, '`Content-Length` is not a header'],
  'a word before the header': [`x${message(body(1))}`, 'the header has no Content-Length'],
  'a header without end': [`Content-Type: ${'x'.repeat(5000)}`, 'is not a header'],
};

/** Exit code and both outputs, once it has ended or has answered this request. */
function outcome(server: ChildProcess, id: number): Promise<{ code: number | null | 'answered'; error: string }> {
  return new Promise((resolve) => {
    let [out, error] = ['', ''];
    server.stdout!.on('data', (chunk) => {
      out += String(chunk);
      if (out.includes(`"id":${id}`)) resolve({ code: 'answered', error });
    });
    server.stderr!.on('data', (chunk) => (error += String(chunk)));
    server.on('close', (code) => resolve({ code, error }));
  });
}

test.each(Object.entries(MALFORMED))('%s ends it with a sentence', async (_, [messages, said]) => {
  const server = startedWith('pipe');
  server.stdin!.on('error', () => undefined);
  server.stdin!.write(Buffer.from(messages, 'latin1'));
  server.stdin!.write(message(body(2)));
  const { code, error } = await outcome(server, 2);
  server.kill();
  expect(code).toBe(1);
  expect(error).toMatch(/^alignbook server: invalid message: [^\n]*\. The server stops\.\n$/);
  expect(error).toContain(said);
});

test.each([
  ['half a header', 'Content-Le'],
  ['a header without its last line', 'Content-Length: 5\r\n'],
  ['half a message', message(body(1), 1000)],
])('%s, and nothing more, ends it with a sentence', async (_, messages) => {
  const server = startedWith('pipe');
  server.stdin!.end(messages);
  const { code, error } = await outcome(server, 1);
  expect(code).toBe(1);
  expect(error).toBe('alignbook server: invalid message: the input ends within it. The server stops.\n');
});

test('it answers all that came before its input ends, and ends', async () => {
  const server = startedWith('pipe');
  const ended = new Promise((resolve) => server.on('close', resolve));
  server.stdin!.end(message(body(2)));
  expect((await outcome(server, 2)).code).toBe('answered');
  expect(await ended).toBe(0);
});

const TYPE = 'Content-Type: application/vscode-jsonrpc; charset=utf-8';
const HEADER_LIKE = JSON.stringify({ jsonrpc: '2.0', method: 'x', params: { a: '\r\n\r\nContent-Length: x' } });

test.each([
  ['other headers', `X-Client: odd; é\r\ncontent-LENGTH:   ${body(2).length}  \r\n${TYPE}\r\n\r\n${body(2)}`],
  ['no JSON in a message', message('{') + message(body(2))],
  ['an empty message', message('') + message(body(2))],
  ['headers in a message', message(HEADER_LIKE) + message(body(2))],
])('%s: answered', async (_, messages) => {
  const server = startedWith('pipe');
  server.stdin!.write(messages);
  expect((await outcome(server, 2)).code).toBe('answered');
  server.kill();
});

test('well-formed messages are never refused, however the stream is cut', () => {
  const messages = fc
    .tuple(fc.constantFrom('', `${TYPE}\r\n`), fc.string({ unit: 'binary' }))
    .map(([header, text]) => header + message(text));
  const stream = fc.array(messages, { maxLength: 5 }).map((all) => Buffer.from(all.join('')));
  fc.assert(
    fc.property(stream, fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1 }), (bytes, sizes) => {
      const check = new HeaderCheck();
      for (let at = 0, k = 0; at < bytes.length; k++) {
        const size = sizes[k % sizes.length]!;
        expect(check.wrongIn(bytes.subarray(at, at + size))).toBeUndefined();
        at += size;
      }
      expect(check.wrongAtEnd()).toBeUndefined();
    }),
  );
});
