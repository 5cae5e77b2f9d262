/** Every feature over the wire, once: the tests of each feature check its content. */
import { mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import {
  ApplyWorkspaceEditRequest,
  CancellationTokenSource,
  CodeActionRequest,
  CodeLensRequest,
  CompletionRequest,
  DefinitionRequest,
  DidChangeWatchedFilesNotification,
  DocumentDiagnosticRequest,
  DocumentFormattingRequest,
  DocumentHighlightRequest,
  DocumentLinkRequest,
  DocumentRangeFormattingRequest,
  DocumentSymbolRequest,
  type DocumentSymbol,
  ExecuteCommandRequest,
  FileChangeType,
  FoldingRangeRequest,
  HoverRequest,
  InlayHintRequest,
  PrepareRenameRequest,
  ReferencesRequest,
  RenameRequest,
  SelectionRangeRequest,
  SemanticTokensRequest,
  ShowMessageNotification,
  WillRenameFilesRequest,
  WorkspaceDiagnosticRequest,
  WorkspaceSymbolRequest,
  type CompletionList,
  type Location,
  type MarkupContent,
  type WorkspaceEdit,
} from 'vscode-languageserver-protocol/node';
import { LIMITS, MACHINE } from '../support/log.ts';
import { connected, PULLING, started, type Client } from './client.ts';

const BORROWER = `machine: wren\nfrom: machines/wren.alignbook.yaml\n---\n${LIMITS}---\nmarks: M1\nshots: 1.0 right 0.5 down\n---\nmarks: M2\nshots: {near: 1.5 right 2.0 down, far: 6.0 right 5.5 down}\n`;

let client: Client;
let folder: string;
let uri: string;
let machineUri: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'alignbook-server-'));
  mkdirSync(join(folder, '.git'));
  mkdirSync(join(folder, 'machines'));
  writeFileSync(join(folder, 'machines', 'wren.alignbook.yaml'), MACHINE);
  writeFileSync(join(folder, 'log.alignbook.yaml'), BORROWER);
  writeFileSync(join(folder, 'broken.alignbook.yaml'), 'machine: wren\nfrom: machines/none.alignbook.yaml\n');
  uri = pathToFileURL(join(folder, 'log.alignbook.yaml')).href;
  machineUri = pathToFileURL(join(folder, 'machines', 'wren.alignbook.yaml')).href;
  client = await connected(
    started(),
    {
      ...PULLING,
      textDocument: { ...PULLING.textDocument, completion: { completionItem: { snippetSupport: true } } },
      workspace: { workspaceFolders: true, applyEdit: true },
    },
    pathToFileURL(folder).href,
  );
  await client.open(uri, BORROWER);
});
afterAll(async () => {
  await client.stop();
  rmSync(folder, { recursive: true });
});

const at = (text: string) => {
  const before = BORROWER.slice(0, BORROWER.indexOf(text)).split('\n');
  return { textDocument: { uri }, position: { line: before.length - 1, character: before.at(-1)!.length } };
};
const whole = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
const changesOf = (edit: WorkspaceEdit | null) =>
  Object.fromEntries(
    (edit?.documentChanges ?? []).flatMap((change) =>
      'edits' in change ? [[change.textDocument.uri, change.edits.length]] : [],
    ),
  );

test('the borrowed machine is loaded, and nothing is wrong', async () =>
  expect((await client.pull(uri)).map(({ code }) => code)).toEqual([]));

test('values in the lines', async () => {
  const hints = await client.connection.sendRequest(InlayHintRequest.type, { textDocument: { uri }, range: whole });
  const labels = hints!.map(({ label }) => label);
  expect(labels).toContain('outside, < 1 % · centre 8.1 of 2 mm (far, front)');
  // One line of meaning for each cell; hints at the same place are distinguished.
  expect(labels.filter((label) => /machine left/.test(label as string))).toEqual([]);
});

test('hover with a picture', async () => {
  const hover = await client.connection.sendRequest(HoverRequest.type, at('M2\nshots'));
  expect((hover!.contents as MarkupContent).value).toContain('![Tape on M2: ');
});

test('completion', async () => {
  const { position } = at('1.0 right');
  const list = await client.connection.sendRequest(CompletionRequest.type, { textDocument: { uri }, position });
  expect((list as CompletionList).items.map(({ label }) => label)).toContain('centre');
});

test('outline, folding, selection, links', async () => {
  const symbols = await client.connection.sendRequest(DocumentSymbolRequest.type, { textDocument: { uri } });
  const names = (of: readonly { readonly name: string }[] = []) => of.map(({ name }) => name);
  expect(names(symbols!)).toEqual(['machine wren', 'limits workshop', 'visit 1']);
  const visit = symbols!.at(-1)! as DocumentSymbol;
  expect(names(visit.children?.flatMap((child) => [child, ...(child.children ?? [])]))).toEqual(
    expect.arrayContaining(['marks M1', 'marks M2']),
  );
  expect(
    (await client.connection.sendRequest(FoldingRangeRequest.type, { textDocument: { uri } }))!.length,
  ).toBeGreaterThan(3);
  expect(
    (await client.connection.sendRequest(SelectionRangeRequest.type, {
      textDocument: { uri },
      positions: [at('8.1').position, at('6.0 right').position],
    }))!,
  ).toHaveLength(2);
  expect(await client.connection.sendRequest(DocumentLinkRequest.type, { textDocument: { uri } })).toMatchObject([
    { target: machineUri },
  ]);
});

test('a name is defined in the file that is borrowed, and used in both', async () => {
  expect(await client.connection.sendRequest(DefinitionRequest.type, at('M2\nshots'))).toMatchObject([
    { uri: machineUri },
  ]);
  const references = await client.connection.sendRequest(ReferencesRequest.type, {
    ...at('M2\nshots'),
    context: { includeDeclaration: true },
  });
  expect(new Set(references!.map((one: Location) => one.uri))).toEqual(new Set([uri, machineUri]));
  expect((await client.connection.sendRequest(DocumentHighlightRequest.type, at('M2\nshots')))!.length).toBe(2);
});

test('a rename changes both files; one to a name that is taken is refused', async () => {
  expect(await client.connection.sendRequest(PrepareRenameRequest.type, at('M2\nshots'))).toMatchObject({
    start: at('M2\nshots').position,
  });
  const edit = await client.connection.sendRequest(RenameRequest.type, { ...at('M2\nshots'), newName: 'bridge' });
  expect(changesOf(edit)).toEqual({ [uri]: 2, [machineUri]: 1 });
  await expect(
    client.connection.sendRequest(RenameRequest.type, { ...at('M2\nshots'), newName: 'M3' }),
  ).rejects.toThrow('The name `M3` is already used for a station.');
});

test('a closed file that is too long is not searched, with a warning', async () => {
  const file = join(folder, 'machines', 'years.alignbook.yaml');
  writeFileSync(file, `machine: wren\nfrom: wren.alignbook.yaml\n${'---\nnote: a\n'.repeat(25_000)}`);
  const said = new Promise<string>((resolve) =>
    client.connection.onNotification(ShowMessageNotification.type, ({ message }) => resolve(message)),
  );
  const edit = await client.connection.sendRequest(RenameRequest.type, { ...at('M2\nshots'), newName: 'bridge' });
  expect(changesOf(edit)).toEqual({ [uri]: 2, [machineUri]: 1 });
  expect(await said).toBe('Not searched because too long: machines/years.alignbook.yaml. Open a file to include it.');
  rmSync(file);
});

test('a file that is renamed is borrowed from under its new name', async () => {
  const edit = await client.connection.sendRequest(WillRenameFilesRequest.type, {
    files: [{ oldUri: machineUri, newUri: machineUri.replace('wren', 'robin') }],
  });
  expect(changesOf(edit)).toEqual({ [uri]: 1 });
});

test('so is one in a folder that is renamed; and who borrows may move itself', async () => {
  const moved = async (oldUri: string, newUri: string) => {
    const edit = await client.connection.sendRequest(WillRenameFilesRequest.type, { files: [{ oldUri, newUri }] });
    return edit!.documentChanges!.flatMap((change) =>
      'edits' in change && change.textDocument.uri === uri
        ? change.edits.map((one) => ('newText' in one ? one.newText : ''))
        : [],
    );
  };
  const at = (path: string) => pathToFileURL(join(folder, path)).href;
  expect(await moved(at('machines'), at('described'))).toEqual(['described/wren.alignbook.yaml']);
  expect(await moved(uri, at('logs/spring.alignbook.yaml'))).toEqual(['../machines/wren.alignbook.yaml']);
});

test('names have colours', async () => {
  const { data } = (await client.connection.sendRequest(SemanticTokensRequest.type, { textDocument: { uri } }))!;
  expect(data.length).toBeGreaterThan(30);
  expect(data.length % 5).toBe(0);
});

test('the next step: a lens, an action, and the edit', async () => {
  const lenses = (await client.connection.sendRequest(CodeLensRequest.type, { textDocument: { uri } }))!;
  expect(lenses.map(({ command }) => command!.title)).toEqual([expect.stringMatching(/^M1: /), 'Log Step']);
  const { command } = lenses[1]!;
  const actions = await client.connection.sendRequest(CodeActionRequest.type, {
    textDocument: { uri },
    range: whole,
    context: { diagnostics: [] },
  });
  expect(actions!.map(({ title }) => title)).toContainEqual(expect.stringMatching(/^Log step: M1 /));
  const applied = new Promise<WorkspaceEdit>((resolve) =>
    client.connection.onRequest(ApplyWorkspaceEditRequest.type, ({ edit }) => {
      resolve(edit);
      return { applied: true };
    }),
  );
  await client.connection.sendRequest(ExecuteCommandRequest.type, {
    command: command!.command,
    arguments: command!.arguments!,
  });
  expect(changesOf(await applied)).toEqual({ [uri]: 1 });
});

test('formatting lays out the cells that were touched, a range those in it', async () => {
  const other = pathToFileURL(join(folder, 'other.alignbook.yaml')).href;
  await client.open(other, 'note:   a\n---\nnote:  b\n');
  const whole = () =>
    client.connection.sendRequest(DocumentFormattingRequest.type, {
      textDocument: { uri: other },
      options: { tabSize: 2, insertSpaces: true },
    });
  expect(await whole()).toEqual([]);
  await client.change(other, 2, {
    range: { start: { line: 2, character: 8 }, end: { line: 2, character: 8 } },
    text: 'c',
  });
  expect((await whole())!.map(({ range }) => range.start.line)).toEqual([2]);
  const first = await client.connection.sendRequest(DocumentRangeFormattingRequest.type, {
    textDocument: { uri: other },
    range: { start: { line: 0, character: 0 }, end: { line: 0, character: 4 } },
    options: { tabSize: 2, insertSpaces: true },
  });
  expect(first!.map(({ range }) => range.start.line)).toEqual([0]);
  await client.connection.sendNotification('textDocument/didClose', { textDocument: { uri: other } });
});

test('what a status bar shows', async () => {
  const status = await client.connection.sendRequest('alignbook/status', { uri });
  expect(status).toMatchObject({
    verdict: 'continue',
    sentence: expect.stringMatching(/^M1: [ABC] (in|out) /) as string,
    findings: { error: 0 },
  });
});

test('the whole workspace: symbols, and what is wrong in files that are not open', async () => {
  const symbols = await client.connection.sendRequest(WorkspaceSymbolRequest.type, { query: 'M2' });
  expect(symbols!.map(({ name }) => name)).toEqual(['marks M2']);
  const { items } = await client.connection.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
  const reported = Object.fromEntries(
    items.map((one) => [one.uri.split('/').at(-1), one.kind === 'full' ? one.items.map(({ code }) => code) : one.kind]),
  );
  // The one that was closed above is no file: an editor would go on showing what it found in it.
  const gone = { 'other.alignbook.yaml': [] };
  expect(reported).toEqual({ 'broken.alignbook.yaml': ['machine.from'], 'wren.alignbook.yaml': [], ...gone });
  const again = await client.connection.sendRequest(WorkspaceDiagnosticRequest.type, {
    previousResultIds: items.flatMap(({ uri: of, resultId }) => (resultId ? [{ uri: of, value: resultId }] : [])),
  });
  expect(again.items.map(({ kind }) => kind)).toEqual(['unchanged', 'unchanged', 'full']);
});

test('a workbook that is deleted or renamed leaves no findings behind', async () => {
  const [old, renamed] = ['old', 'renamed'].map((name) => join(folder, `${name}.alignbook.yaml`)) as [string, string];
  writeFileSync(old, 'machine: wren\nfrom: nowhere.alignbook.yaml\n');
  const changed = (path: string, type: FileChangeType) =>
    client.connection.sendNotification(DidChangeWatchedFilesNotification.type, {
      changes: [{ uri: pathToFileURL(path).href, type }],
    });
  await changed(old, FileChangeType.Created);
  const asked = { previousResultIds: [] as { uri: string; value: string }[] };
  const count = async (path: string) => {
    const { items } = await client.connection.sendRequest(WorkspaceDiagnosticRequest.type, asked);
    asked.previousResultIds = items.flatMap(({ uri: of, resultId }) =>
      resultId ? [{ uri: of, value: resultId }] : [],
    );
    const report = items.find((one) => one.uri === pathToFileURL(path).href);
    return report?.kind === 'full' ? report.items.length : report?.kind;
  };
  expect(await count(old)).toBe(1);
  renameSync(old, renamed);
  await changed(old, FileChangeType.Deleted);
  await changed(renamed, FileChangeType.Created);
  expect(await count(old)).toBe(0);
  expect(await count(renamed)).toBe('unchanged');
  rmSync(renamed);
  await changed(renamed, FileChangeType.Deleted);
  expect(await count(renamed)).toBe(0);
  // Once reported, it is not repeated.
  expect(await count(renamed)).toBeUndefined();
});

test('an edit of the borrowed machine takes effect where it is borrowed, on disk and in the editor', async () => {
  await client.open(machineUri, MACHINE.replace('M2:', 'M2x:'));
  expect((await client.pull(uri)).map(({ code }) => code)).toContain('name.unknown');
  await client.connection.sendNotification('textDocument/didClose', { textDocument: { uri: machineUri } });
  expect((await client.pull(uri)).map(({ code }) => code)).toEqual([]);
  writeFileSync(join(folder, 'machines', 'wren.alignbook.yaml'), MACHINE.replace('M1:', 'M1x:'));
  await client.connection.sendNotification(DidChangeWatchedFilesNotification.type, {
    changes: [{ uri: machineUri, type: 2 }],
  });
  expect((await client.pull(uri)).map(({ code }) => code)).toContain('name.unknown');
  writeFileSync(join(folder, 'machines', 'wren.alignbook.yaml'), MACHINE);
  await client.connection.sendNotification(DidChangeWatchedFilesNotification.type, {
    changes: [{ uri: machineUri, type: 2 }],
  });
  expect((await client.pull(uri)).map(({ code }) => code)).toEqual([]);
});

test('a request that is given up is answered as given up, and the next one as ever', async () => {
  const source = new CancellationTokenSource();
  const requested = client.connection.sendRequest(
    DocumentDiagnosticRequest.type,
    { textDocument: { uri } },
    source.token,
  );
  source.cancel();
  await requested.catch(({ code }: { code: number }) => expect(code).toBe(-32800));
  expect((await client.pull(uri)).map(({ code }) => code)).toEqual([]);
});
