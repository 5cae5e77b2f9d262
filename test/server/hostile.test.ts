/** Hostile texts and clients: the server answers each, logs no error, and its state is not affected. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import {
  DidCloseTextDocumentNotification,
  DidSaveTextDocumentNotification,
  ExecuteCommandRequest,
  HoverRequest,
  LogMessageNotification,
  RenameRequest,
  type Diagnostic,
} from 'vscode-languageserver-protocol/node';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, PULLING, started, type Client } from './client.ts';
import { answersAbout } from './questions.ts';

const LOG = `${MACHINE}---\n${LIMITS}---\nmarks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n---\nadjust: M9\nlock: tight\n`;

const TEXTS: Readonly<Record<string, string>> = {
  nothing: '',
  'a BOM alone': '\uFEFF',
  'a BOM before': `\uFEFF${LOG}`,
  CRLF: LOG.replaceAll('\n', '\r\n'),
  'mixed line ends': LOG.replace(/\n/g, (_, at: number) => (at % 2 ? '\n' : '\r\n')),
  'a lone CR': LOG.replace('lock', '\rlock'),
  surrogates: LOG.replace('adjust: M9', 'note: 😀 "😀😀"\nx-a: 😀\nadjust: M9'),
  'half a surrogate': LOG.replace('M9', 'M\uD83D9'),
  separators: '---\n---\n...\n---',
  'an open quote': LOG.replace('M9', '"M9'),
  brackets: '['.repeat(5000),
  'an unfinished conflict': LOG.replace('---\nadjust', '<<<<<<< ours\n---\nadjust'),
  'names of objects':
    'work: constructor\n__proto__: 1 mm\ntoString: hasOwnProperty\n---\nmachine: __proto__\npath: {constructor: {leg: 1}}\n',
  'one long line': `note: ${'x'.repeat(1_000_000)}\n`,
  'ten megabytes': `${LOG}${'---\nnote: |\n  The gantry ran freely, the tape was fresh.\n'.repeat(200_000)}`,
  'ten megabytes of one word': 'M1 '.repeat(3_500_000),
};

let client: Client;
let folder: string;
const troubles: string[] = [];
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'alignbook-hostile-'));
  mkdirSync(join(folder, 'inside', '.git'), { recursive: true });
  client = await connected(started(), PULLING, pathToFileURL(join(folder, 'inside')).href);
  client.connection.onNotification(LogMessageNotification.type, ({ message }) => void troubles.push(message));
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true });
  expect(troubles).toEqual([]);
});

const closed = (uri: string) =>
  client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });

/** Every place lies in the text, and not within a character. */
function checkRanges(text: string, findings: readonly Diagnostic[]): void {
  const document = TextDocument.create('', '', 1, text);
  for (const {
    range: { start, end },
  } of findings) {
    for (const place of [start, end]) expect(document.positionAt(document.offsetAt(place))).toEqual(place);
    expect(document.offsetAt(end)).toBeGreaterThanOrEqual(document.offsetAt(start));
  }
}

test.each(Object.keys(TEXTS))('%s', async (name) => {
  const text = TEXTS[name]!;
  const [uri, again] = [`untitled:${encodeURIComponent(name)}`, `untitled:${encodeURIComponent(name)}-2`];
  await client.open(uri, text);
  const first = await answersAbout(client, uri, text, 4);
  checkRanges(text, first.findings);
  // All of it deleted, then put back.
  await client.change(uri, 2, {
    range: { start: { line: 0, character: 0 }, end: { line: 1_000_000, character: 0 } },
    text: '',
  });
  expect((await client.pull(uri)).map(({ code }) => code)).toEqual([]);
  await client.change(uri, 3, { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, text });
  await client.connection.sendNotification(DidSaveTextDocumentNotification.type, { textDocument: { uri } });
  await closed(uri);
  await client.open(again, text);
  const second = await answersAbout(client, again, text, 4);
  await closed(again);
  const reported = (answers: unknown) => JSON.stringify(answers).replaceAll(again, uri);
  expect(reported(second) === reported(first)).toBe(true);
});

test('places beyond the text, documents that are not open, commands that there are not', async () => {
  const uri = 'untitled:odd';
  await client.open(uri, LOG);
  const { connection } = client;
  const requested = (line: number, character: number) => ({ textDocument: { uri }, position: { line, character } });
  expect(await connection.sendRequest(RenameRequest.type, { ...requested(9999, 0), newName: 'x' })).toBeNull();
  // Beyond a line is its end.
  expect(await connection.sendRequest(HoverRequest.type, requested(0, 9999))).toEqual(
    await connection.sendRequest(HoverRequest.type, requested(0, 'machine: wren'.length)),
  );
  await client.change('untitled:unknown', 7, { text: 'x' });
  await closed('untitled:unknown');
  expect(await client.pull('untitled:unknown')).toEqual([]);
  expect(
    await connection.sendRequest(ExecuteCommandRequest.type, { command: 'alignbook.server.addStep', arguments: [7] }),
  ).toBeNull();
  // Opened twice: the later text counts.
  await client.open(uri, 'adjust: M1\nlock: tight\n');
  expect((await client.pull(uri)).map(({ code }) => code)).toEqual(['machine.none']);
  await closed(uri);
  await closed(uri);
});

test('a file outside the root is not read, and nothing leads to it', async () => {
  writeFileSync(join(folder, 'secret.alignbook.yaml'), MACHINE);
  const uri = pathToFileURL(join(folder, 'inside', 'log.alignbook.yaml')).href;
  for (const from of [
    '../secret.alignbook.yaml',
    'a/../../secret.alignbook.yaml',
    join(folder, 'secret.alignbook.yaml'),
    pathToFileURL(join(folder, 'secret.alignbook.yaml')).href,
  ]) {
    const text = `machine: wren\nfrom: ${from}\n`;
    await client.open(uri, text);
    const { findings, links } = await answersAbout(client, uri, text, 2);
    expect(findings.map(({ code }) => code)).toEqual(['machine.from']);
    expect(links).toEqual([]);
    await closed(uri);
  }
});
