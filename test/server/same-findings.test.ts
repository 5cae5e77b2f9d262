/**
 * A workbook has the same findings as text and as notebook: the same code and message, in the same cell, at the same
 * place in the cell. Tried with every example, and with copies of them that are broken at random.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { DidCloseTextDocumentNotification, type Diagnostic, type Position } from 'vscode-languageserver-protocol/node';
import { splitCells, toNotebook } from '../../src/cells/index.ts';
import { runs, SEED } from '../support/amount.ts';
import { connected, PULLING, ROOT, started, type Client } from './client.ts';
import { NotebookDocument } from './notebook-document.ts';
import { editOf, randomOf } from './random-edits.ts';

const FOLDER = join(ROOT, 'examples');
const EXAMPLES = readdirSync(FOLDER).filter((name) => name.endsWith('.alignbook.yaml'));
const textOf = (name: string) => readFileSync(join(FOLDER, name), 'utf8');
/** Beside the examples, so that their machines are found. */
const uriOf = (name: string) => pathToFileURL(join(FOLDER, name)).href;
const BROKEN = Math.max(300, runs(300));
const EDITS = 3;

let client: Client;
beforeAll(async () => (client = await connected(started(), { ...PULLING, notebookDocument: { synchronization: {} } })));
afterAll(() => client.stop());

/** A finding with its cell and its place there, lines counted from the first that a notebook shows. */
interface Placed {
  readonly cell: number;
  readonly from: string;
  readonly to: string;
  readonly code: Diagnostic['code'];
  readonly message: string;
}

async function inText(uri: string, text: string): Promise<Placed[]> {
  await client.open(uri, text);
  const items = await client.pull(uri);
  await client.connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri } });
  const { head, cells } = splitCells(text);
  const lines = (part: string) => part.split('\n').length - 1;
  let line = lines(head);
  const kinds = toNotebook(text).cells.map(({ kind }) => kind);
  const starts = cells.map((cell, k) => {
    const start = line;
    line += lines(cell.text);
    return { start, hidden: /^---[ \t]*\r?\n/.test(cell.text) ? 1 : 0, isNote: kinds[k] === 'note' };
  });
  return items.map((item) => {
    const cell = Math.max(
      0,
      starts.findLastIndex(({ start }) => start <= item.range.start.line),
    );
    const { start, hidden, isNote } = starts[cell]!;
    const shown = ({ line, character }: Position) =>
      // A note is shown as its text alone; what is hidden, at the beginning of the cell.
      line < start + hidden || isNote ? '0:0' : `${line - start - hidden}:${character}`;
    return placed(cell, item, shown);
  });
}

async function inNotebook(uri: string, text: string): Promise<Placed[]> {
  const notebook = new NotebookDocument(client, uri, toNotebook(text));
  await notebook.open();
  const result: Placed[] = [];
  await client.settled(notebook.cells[0]?.uri ?? uri);
  for (const [k, { uri: cell }] of notebook.cells.entries()) {
    const items = client.sent(cell);
    result.push(...items.map((item) => placed(k, item, ({ line, character }) => `${line}:${character}`)));
  }
  await notebook.close();
  return result;
}

function placed(cell: number, { code, message, range }: Diagnostic, shown: (at: Position) => string): Placed {
  return { cell, from: shown(range.start), to: shown(range.end), code, message };
}

const inOrder = (findings: readonly Placed[]) => findings.map((one) => JSON.stringify(one)).toSorted();

async function compare(uri: string, text: string): Promise<number> {
  const asText = await inText(uri, text);
  expect(inOrder(await inNotebook(uri, text)), text).toEqual(inOrder(asText));
  return asText.length;
}

test.each(EXAMPLES)('%s', async (name) => {
  const count = await compare(uriOf(name), textOf(name));
  console.log(`${name}: ${count} findings`);
});

test(`${BROKEN} broken copies`, { timeout: 600_000 }, async () => {
  const random = randomOf(SEED);
  let [findings, errors] = [0, 0];
  for (let k = 0; k < BROKEN; k++) {
    const name = EXAMPLES[k % EXAMPLES.length]!;
    let text = textOf(name);
    for (let edits = 0; edits <= Math.floor(random() * EDITS); edits++) {
      const { start, end, text: put } = editOf(text, random);
      text = text.slice(0, start) + put + text.slice(end);
    }
    const count = await compare(uriOf(name), text);
    findings += count;
    if (count > 0) errors++;
  }
  console.log(`seed ${SEED}: ${BROKEN} files, ${errors} of them with findings, ${findings} findings compared`);
});
