/**
 * After any edits the server is where it would be had the file been opened so: all findings, all values, the outline.
 *
 *     SEED=7 EDITS=100000 npx vitest run --project server test/server/random.test.ts
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { DidCloseTextDocumentNotification, DidSaveTextDocumentNotification, DocumentSymbolRequest, HoverRequest, InlayHintRequest } from 'vscode-languageserver-protocol/node';
import { connected, PULLING, started, type Client } from './client.ts';
import { editOf, randomOf, startOf } from './random-edits.ts';

const SEED = Number(process.env['SEED'] ?? 1);
const EDITS = Number(process.env['EDITS'] ?? 10_000);
const IN_A_ROW = 80;

let client: Client;
beforeAll(async () => (client = await connected(started(), PULLING)));
afterAll(() => client.stop());

const whole = { start: { line: 0, character: 0 }, end: { line: 99_999, character: 0 } };

async function stateOf(uri: string) {
  const { connection } = client;
  return {
    findings: await client.pull(uri),
    hints: await connection.sendRequest(InlayHintRequest.type, { textDocument: { uri }, range: whole }),
    symbols: await connection.sendRequest(DocumentSymbolRequest.type, { textDocument: { uri } }),
  };
}

async function closed(uri: string): Promise<void> {
  await client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });
}

/** The document after so many edits, a few of them with questions in between that must not change anything. */
async function edited(uri: string, random: () => number, count: number): Promise<string> {
  let document = TextDocument.create(uri, 'alignbook', 1, startOf(random));
  await client.open(uri, document.getText());
  for (let version = 2; version < count + 2; version++) {
    const { start, end, text } = editOf(document.getText(), random);
    const change = { range: { start: document.positionAt(start), end: document.positionAt(end) }, text };
    document = TextDocument.update(document, [change], version);
    await client.change(uri, version, change);
    if (random() < 0.05) await client.connection.sendRequest(HoverRequest.type, { textDocument: { uri }, position: change.range.start });
    if (random() < 0.05) await client.pull(uri);
  }
  await client.connection.sendNotification(DidSaveTextDocumentNotification.type, { textDocument: { uri } });
  return document.getText();
}

test(`${EDITS} random edits end where a fresh opening begins`, async () => {
  let compared = 0;
  let edits = 0;
  for (let k = 0; edits < EDITS; k++) {
    const [worn, fresh] = [`untitled:worn-${k}`, `untitled:fresh-${k}`];
    const count = Math.min(IN_A_ROW, EDITS - edits);
    const text = await edited(worn, randomOf(SEED * 1000 + k), count);
    edits += count;
    const found = await stateOf(worn);
    await closed(worn);
    await client.open(fresh, text);
    const expected = await stateOf(fresh);
    await closed(fresh);
    const told = (state: typeof found) => JSON.stringify(state).replaceAll(worn, 'it').replaceAll(fresh, 'it');
    expect(told(found), `SEED=${SEED}, sequence ${k}`).toBe(told(expected));
    compared += found.findings.length + found.hints!.length + found.symbols!.length;
  }
  expect(compared).toBeGreaterThan(EDITS / 10);
  console.log(`seed ${SEED}: ${edits} edits, ${compared} findings, values and cells compared`);
}, 300_000);
