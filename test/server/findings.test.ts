/** Each finding arrives once: pulled, or pushed; at once, but not for the word that is being typed. */
import { afterEach, expect, test } from 'vitest';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { DidCloseTextDocumentNotification } from 'vscode-languageserver-protocol/node';
import { MACHINE } from '../support/log.ts';
import { connected, PULLING, started, WAITING, type Client } from './client.ts';

const URI = 'untitled:first.alignbook.yaml';
const TEXT = `${MACHINE}---\nmarks: M2\nshots: {near: centre, far: 3 right}\n---\nadjust: M1x\nlock: tight\n`;

let client: Client | undefined;
afterEach(() => client?.stop());

test('a client that can ask, asks', async () => {
  client = await connected(started(), PULLING);
  await client.open(URI, TEXT);
  const [first, ...others] = await client.pull(URI);
  expect(others.map(({ code }) => code)).toContain('log.unread');
  expect(first).toMatchObject({ code: 'log.noLimits', source: 'alignbook' });
  expect(client.result.capabilities.diagnosticProvider).toMatchObject({
    interFileDependencies: true,
    workspaceDiagnostics: true,
  });
});

test('a client without pull diagnostics receives them pushed', async () => {
  client = await connected(started(), WAITING);
  const reported = client.received(URI);
  await client.open(URI, TEXT);
  const unknown = (await reported).find(({ code }) => code === 'name.unknown');
  expect(unknown).toMatchObject({
    severity: 1,
    message: 'Machine `wren` has no part `M1x`. Did you mean `M1`?',
  });
  expect(unknown!.relatedInformation![0]!.message).toBe('The machine in force here');
  expect(client.result.capabilities.diagnosticProvider).toBeUndefined();
});

test('a client without pull diagnostics receives those of workbooks on disk in every folder', async () => {
  const folders = ['one', 'two'].map((name) => mkdtempSync(join(tmpdir(), `alignbook-${name}-`)));
  const paths = folders.map((folder) => join(folder, 'log.alignbook.yaml'));
  const [first, second] = paths.map((path) => pathToFileURL(path).href) as [string, string];
  for (const path of paths) writeFileSync(path, 'adjust: M1\nlock: tight\n');
  client = await connected(started(), WAITING, ...folders.map((folder) => pathToFileURL(folder).href));
  const reported = await Promise.all([first, second].map((uri) => client!.received(uri)));
  expect(reported.map((diagnostics) => diagnostics.map(({ code }) => code))).toEqual([
    ['machine.none'],
    ['machine.none'],
  ]);
  // For an open file the editor's text counts; for a closed one the file on disk.
  let next = client.received(first);
  await client.open(first, '');
  expect(await next).toEqual([]);
  next = client.received(first, (diagnostics) => diagnostics.length > 0);
  await client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: first } });
  expect((await next).map(({ code }) => code)).toEqual(['machine.none']);
  for (const folder of folders) rmSync(folder, { recursive: true });
});

test('an edit is followed, and the word being typed is left in peace until it is done', async () => {
  client = await connected(started(), PULLING);
  await client.open(URI, TEXT.replace('M1x', 'M1'));
  const line = TEXT.split('\n').indexOf('adjust: M1x');
  const put = (version: number, character: number, text: string) =>
    client!.change(URI, version, { range: { start: { line, character }, end: { line, character } }, text });
  await put(2, 10, 'x');
  expect((await client.pull(URI)).map(({ code }) => code)).not.toContain('name.unknown');
  await client.change(URI, 3, {
    range: { start: { line: 0, character: 9 }, end: { line: 0, character: 9 } },
    text: 'x',
  });
  expect((await client.pull(URI)).find(({ code }) => code === 'name.unknown')?.range).toEqual({
    start: { line, character: 8 },
    end: { line, character: 11 },
  });
});
