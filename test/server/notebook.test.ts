/** A notebook's cells are documents; together they are the file. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import {
  CodeActionRequest,
  CompletionRequest,
  DidChangeNotebookDocumentNotification,
  DiagnosticRefreshRequest,
  DidCloseNotebookDocumentNotification,
  DidCloseTextDocumentNotification,
  DidOpenNotebookDocumentNotification,
  HoverRequest,
  InlayHintRequest,
  RenameRequest,
  WorkspaceDiagnosticRequest,
  type CompletionList,
  type MarkupContent,
} from 'vscode-languageserver-protocol/node';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, PULLING, started, type Client } from './client.ts';
import { NotebookDocument } from './notebook-document.ts';

const URI = 'untitled:log.alignbook.yaml';
const CELLS = [
  MACHINE.replace('locks: none', 'locks: nut'),
  LIMITS.trimEnd(),
  'marks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}',
  'adjust: M9\nlock: tight',
];
const cell = (k: number | string) => `vscode-notebook-cell:log#${k}`;
const item = (k: number | string, text: string) => ({ uri: cell(k), languageId: 'alignbook', version: 1, text });
const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

let client: Client;
beforeAll(async () => {
  client = await connected(started(), { ...PULLING, notebookDocument: { synchronization: {} } });
  await client.connection.sendNotification(DidOpenNotebookDocumentNotification.type, {
    notebookDocument: {
      uri: URI,
      notebookType: 'alignbook',
      version: 1,
      cells: CELLS.map((_, k) => ({ kind: 2 as const, document: cell(k) })),
    },
    cellTextDocuments: CELLS.map((text, k) => item(k, text)),
  });
});
afterAll(() => client.stop());

const edited = (version: number, cells: object) =>
  client.connection.sendNotification(DidChangeNotebookDocumentNotification.type, {
    notebookDocument: { uri: URI, version },
    change: { cells },
  });

test('a finding is sent for its cell, once, and nothing under the URI of the file', async () => {
  expect((await client.settled(cell(3))).find(({ code }) => code === 'name.unknown')?.range).toEqual({
    start: { line: 0, character: 8 },
    end: { line: 0, character: 10 },
  });
  // The adjustment below it may have moved its marks: they are faded, and the cause is reported.
  expect(await client.settled(cell(2))).toMatchObject([
    {
      message: 'The marks on M2 are stale.',
      tags: [1],
      relatedInformation: [{ location: { uri: cell(3) }, message: 'This was done since' }],
    },
  ]);
  expect(await client.pull(URI)).toEqual([]);
  // An editor pulls for what has a tab: a cell has none, and a finding that came both ways would stand there twice.
  expect(await client.pull(cell(3))).toEqual([]);
});

test('a hover is the cell’s own; the verdict is not beside its marks, it stands below', async () => {
  const hints = await client.connection.sendRequest(InlayHintRequest.type, {
    textDocument: { uri: cell(2) },
    range: whole,
  });
  // The verdict stands below the cell.
  expect(hints).toEqual([]);
  const hover = await client.connection.sendRequest(HoverRequest.type, {
    textDocument: { uri: cell(2) },
    position: { line: 0, character: 8 },
  });
  expect((hover!.contents as MarkupContent).value).toContain('**M2**: out of limits');
});

test('a rename reaches the cells that it is about', async () => {
  const edit = await client.connection.sendRequest(RenameRequest.type, {
    textDocument: { uri: cell(2) },
    position: { line: 0, character: 8 },
    newName: 'bridge',
  });
  const uris = edit!.documentChanges!.flatMap((change) => ('edits' in change ? [change.textDocument.uri] : []));
  expect(uris).toEqual([cell(0), cell(1), cell(2)]);
});

test('completion uses the other cells', async () => {
  const list = await client.connection.sendRequest(CompletionRequest.type, {
    textDocument: { uri: cell(2) },
    position: { line: 0, character: 7 },
  });
  expect((list as CompletionList).items.map(({ label }) => label)).toEqual(
    expect.arrayContaining(['M1', 'M2', 'M3', 'lens']),
  );
});

test('a text of the same file gets no diagnostics until the notebook is closed', async () => {
  await client.open(URI, 'adjust: M7\nlock: tight\n');
  expect(await client.pull(URI)).toEqual([]);
  expect((await client.settled(cell(3))).map(({ code }) => code)).toContain('name.unknown');
});

test('the finding of an empty cell is reported in it', async () => {
  await edited(2, {
    structure: {
      array: { start: 4, deleteCount: 0, cells: [{ kind: 2, document: cell('empty') }] },
      didOpen: [item('empty', '')],
    },
  });
  expect((await client.settled(cell('empty'))).map(({ code }) => code)).toEqual(['cells.empty']);
  const fixes = await client.connection.sendRequest(CodeActionRequest.type, {
    textDocument: { uri: cell('empty') },
    range: whole,
    context: { diagnostics: [], only: ['quickfix'] },
  });
  expect(fixes).toEqual([]);
  await edited(3, { structure: { array: { start: 4, deleteCount: 1 }, didClose: [{ uri: cell('empty') }] } });
});

test('a comment above the line that opens a cell is its own', async () => {
  await edited(3, {
    structure: {
      array: { start: 4, deleteCount: 0, cells: [{ kind: 2, document: cell('opened') }] },
      didOpen: [item('opened', '# why\n---\nadjust: M9\nlock: tight')],
    },
  });
  expect((await client.settled(cell('opened'))).map(({ code, range }) => [code, range.start.line])).toEqual([
    ['log.unread', 2],
    ['name.unknown', 2],
  ]);
  await edited(3, { structure: { array: { start: 4, deleteCount: 1 }, didClose: [{ uri: cell('opened') }] } });
});

test('text and cells change', async () => {
  await edited(4, {
    textContent: [
      {
        document: { uri: cell(3), version: 2 },
        changes: [{ range: { start: { line: 0, character: 8 }, end: { line: 0, character: 10 } }, text: 'M1' }],
      },
    ],
  });
  expect(await client.settled(cell(3))).toEqual([]);
  await edited(5, {
    structure: {
      array: { start: 2, deleteCount: 0, cells: [{ kind: 2, document: cell('new') }] },
      didOpen: [item('new', 'care: M7\ndid: inspected\n')],
    },
  });
  expect((await client.settled(cell('new'))).map(({ code }) => code)).toContain('name.unknown');
  await edited(6, { structure: { array: { start: 2, deleteCount: 1 }, didClose: [{ uri: cell('new') }] } });
  expect(await client.settled(cell('new'))).toEqual([]);
  expect((await client.settled(cell(2))).map(({ code }) => code)).toEqual([undefined]);
});

test('a closed notebook is gone', async () => {
  await client.connection.sendNotification(DidCloseNotebookDocumentNotification.type, {
    notebookDocument: { uri: URI },
    cellTextDocuments: CELLS.map((_, k) => ({ uri: cell(k) })),
  });
  expect(await client.settled(cell(3))).toEqual([]);
  // The text that was opened meanwhile.
  expect((await client.pull(URI)).map(({ code }) => code)).toEqual(['machine.none']);
});

test('what an editor shows no more is reported as empty: a file that is a notebook, and a closed document', async () => {
  const { connection } = client;
  const reported = async () => {
    const { items } = await connection.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    return items.map((one) => [one.uri, one.kind === 'full' ? one.items.length : one.kind]);
  };
  await connection.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: URI } });
  expect(await reported()).toEqual([[URI, 0]]);
  const notebook = new NotebookDocument(client, URI, CELLS);
  await notebook.open();
  for (let k = 0; k < 5; k++) expect(await reported()).toEqual([[URI, 0]]);
  expect((await client.settled(notebook.cells[3]!.uri)).map(({ code }) => code)).toContain('name.unknown');
  await notebook.close();
  expect(await client.settled(notebook.cells[3]!.uri)).toEqual([]);
  // An editor has let go of a document before the third report.
  for (let k = 0; k < 3; k++) await reported();
  expect(await reported()).toEqual([]);
});

test('a text is asked for again when its notebook is closed', async () => {
  const asking = await connected(started(), {
    ...PULLING,
    notebookDocument: { synchronization: {} },
    workspace: { diagnostics: { refreshSupport: true } },
  });
  let refreshed = 0;
  asking.connection.onRequest(DiagnosticRefreshRequest.type, () => void refreshed++);
  const notebook = new NotebookDocument(asking, URI, CELLS);
  await notebook.open();
  await asking.settled(notebook.cells[0]!.uri);
  await asking.open(URI, 'adjust: M7\nlock: tight\n');
  expect(await asking.pull(URI)).toEqual([]);
  const before = refreshed;
  await notebook.close();
  await expect.poll(() => refreshed).toBeGreaterThan(before);
  expect((await asking.pull(URI)).map(({ code }) => code)).toEqual(['machine.none']);
  await asking.stop();
});
