/**
 * After any edits the server's state equals that after opening the resulting file: all findings, all values, the
 * outline.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import {
  DidCloseTextDocumentNotification,
  DidSaveTextDocumentNotification,
  DocumentSymbolRequest,
  HoverRequest,
  InlayHintRequest,
} from 'vscode-languageserver-protocol/node';
import { connected, PULLING, started, type Client } from '../server/client.ts';
import { COUNT, LONGEST, SEED } from '../support/amount.ts';
import { NotebookDocument } from '../server/notebook-document.ts';
import { editOf, randomOf, startOf } from '../server/random-edits.ts';

const EDITS = 20 * COUNT;
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

/** The document after a number of edits, some with requests between that must not change anything. */
async function edited(uri: string, random: () => number, count: number): Promise<string> {
  let document = TextDocument.create(uri, 'alignbook', 1, startOf(random));
  await client.open(uri, document.getText());
  for (let version = 2; version < count + 2; version++) {
    const { start, end, text } = editOf(document.getText(), random);
    const change = { range: { start: document.positionAt(start), end: document.positionAt(end) }, text };
    document = TextDocument.update(document, [change], version);
    await client.change(uri, version, change);
    if (random() < 0.05)
      await client.connection.sendRequest(HoverRequest.type, { textDocument: { uri }, position: change.range.start });
    if (random() < 0.05) await client.pull(uri);
  }
  await client.connection.sendNotification(DidSaveTextDocumentNotification.type, { textDocument: { uri } });
  return document.getText();
}

test(
  `${EDITS} random edits end where a fresh opening begins`,
  async () => {
    let compared = 0;
    let edits = 0;
    for (let k = 0; edits < EDITS; k++) {
      const [worn, fresh] = [`untitled:worn-${k}`, `untitled:fresh-${k}`];
      const count = Math.min(IN_A_ROW, EDITS - edits);
      const text = await edited(worn, randomOf(SEED * 1000 + k), count);
      edits += count;
      const result = await stateOf(worn);
      await closed(worn);
      await client.open(fresh, text);
      const expected = await stateOf(fresh);
      await closed(fresh);
      const masked = (state: typeof result) => JSON.stringify(state).replaceAll(worn, 'it').replaceAll(fresh, 'it');
      expect(masked(result), `SEED=${SEED}, sequence ${k}`).toBe(masked(expected));
      compared += result.findings.length + result.hints!.length + result.symbols!.length;
    }
    expect(compared).toBeGreaterThan(EDITS / 10);
    console.log(`seed ${SEED}: ${edits} edits, ${compared} findings, values and cells compared`);
  },
  LONGEST,
);

/** The values that a notebook shows, cell by cell. */
async function shownIn({ cells }: NotebookDocument) {
  const result = [];
  for (const { uri } of cells) {
    result.push([
      await client.settled(uri),
      await client.connection.sendRequest(InlayHintRequest.type, { textDocument: { uri }, range: whole }),
    ]);
  }
  return JSON.stringify(result);
}

async function rewritten(notebook: NotebookDocument, random: () => number): Promise<void> {
  const k = Math.floor(random() * notebook.cells.length);
  const kind = random();
  if (kind < 0.1) return notebook.splice(k, 0, 'marks: M1\nshots: 1 right 1 up');
  if (kind < 0.2) return notebook.splice(k, Math.min(notebook.cells.length, 2));
  if (kind < 0.3 || notebook.cells.length === 0) return notebook.splice(k, 0, startOf(random).split(/^---\n/m)[1]!);
  const { start, end, text } = editOf(notebook.cells[k]!.getText(), random);
  return notebook.write(k, start, end, text);
}

test(
  `${EDITS / 5} random edits of notebooks end where a fresh one begins`,
  async () => {
    const random = randomOf(SEED);
    let edits = 0;
    for (let k = 0; edits < EDITS / 5; k++) {
      const worn = new NotebookDocument(client, `untitled:worn-notebook-${k}`, startOf(random).split(/^---\n/m));
      await worn.open();
      for (let row = 0; row < IN_A_ROW; row++, edits++) await rewritten(worn, random);
      await client.connection.sendNotification('notebookDocument/didSave', { notebookDocument: { uri: worn.uri } });
      const result = await shownIn(worn);
      await worn.close();
      const fresh = new NotebookDocument(client, `untitled:fresh-notebook-${k}`, worn.texts);
      await fresh.open();
      const numbered = (text: string, { uri, cells }: NotebookDocument) =>
        cells
          .reduce((masked, cell, index) => masked.replaceAll(`"${cell.uri}"`, `"cell ${index}"`), text)
          .replaceAll(uri, 'it');
      expect(numbered(result, worn), `SEED=${SEED}, notebook ${k}`).toBe(numbered(await shownIn(fresh), fresh));
      await fresh.close();
    }
    console.log(`seed ${SEED}: ${edits} edits of notebooks`);
  },
  LONGEST,
);
