/** The server: its capabilities and handlers. */
import {
  TextDocumentSyncKind,
  type Connection,
  type InitializeParams,
  type InitializeResult,
  type ServerCapabilities,
} from 'vscode-languageserver';
import { ADD_STEP_COMMAND } from '../model/index.ts';
import { offerCompletions } from './features/completions.ts';
import { createWorkspace } from './documents/workspace.ts';
import { followDocuments, watchFiles } from './features/documents.ts';
import { CODE_ACTION_KINDS, offerEdits } from './features/edits.ts';
import { offerFindings } from './findings/findings.ts';
import type { Findings } from './findings/findings-type.ts';
import type { Host, Start } from './hosts/host.ts';
import { Machines } from './features/machines.ts';
import { offerNames, TOKEN_TYPES } from './features/names.ts';
import { followNotebooks, NOTEBOOK_CELLS, NOTEBOOK_TYPE } from './features/notebooks.ts';
import { SingleDocument } from './documents/single-document.ts';
import { createSession, guarded, type Options, type Session } from './documents/session.ts';
import { settingsFrom } from './documents/settings.ts';
import { offerStatus } from './features/status.ts';
import { offerPractice } from './features/practice.ts';
import { offerRecord } from './features/record.ts';
import { offerPanel } from './features/panel.ts';
import { offerStructure } from './features/structure.ts';
import { offerViews } from './features/views.ts';

/** @param starting is called with what the client sends at initialization, before the host is used */
export function serve(
  connection: Connection,
  host: Host,
  version: string,
  starting: (start: Start) => void = () => undefined,
): void {
  const workspace = createWorkspace(host, (uri, text) => new SingleDocument(uri, undefined, text));
  let session: Session;
  let findings: Findings;
  let machines: Machines;

  connection.onInitialize((params): InitializeResult => {
    starting(startOf(params));
    session = createSession(connection, host, workspace, params);
    findings = offerFindings(session);
    machines = new Machines(session);
    followNotebooks(session, findings, followDocuments(session, findings, machines));
    offerViews(session);
    offerCompletions(session);
    offerEdits(session);
    offerStructure(session);
    offerNames(session);
    offerStatus(session);
    offerPanel(session);
    offerRecord(session);
    offerPractice(session);
    return {
      serverInfo: { name: 'alignbook', version },
      capabilities: capabilitiesFor(params),
    };
  });

  connection.onInitialized(
    () =>
      void guarded(session, 'start', undefined, async () => {
        await started(session, machines);
        findings.started();
      })(undefined),
  );
  connection.onDidChangeConfiguration(({ settings }) => {
    session.settings = settingsFrom((settings as { alignbook?: unknown } | null)?.alignbook);
    if (session.client.workspace?.inlayHint?.refreshSupport) connection.languages.inlayHint.refresh();
  });
  connection.onShutdown(() => undefined);
  connection.listen();
}

function startOf(params: InitializeParams): Start {
  return {
    folders: params.workspaceFolders?.map(({ uri }) => uri) ?? (params.rootUri ? [params.rootUri] : []),
    page: (params.initializationOptions as Options | undefined)?.page,
  };
}

async function started(session: Session, machines: Machines): Promise<void> {
  const { connection, client, folders } = session;
  await watchFiles(session);
  if (client.workspace?.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      for (const { uri } of added) folders.add(uri);
      for (const { uri } of removed) folders.delete(uri);
      machines.foldersChanged();
    });
  }
  if (client.workspace?.configuration)
    session.settings = settingsFrom(await connection.workspace.getConfiguration('alignbook'));
}

function capabilitiesFor(params: InitializeParams): ServerCapabilities {
  return {
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: { includeText: false } },
    hoverProvider: true,
    codeActionProvider: { codeActionKinds: CODE_ACTION_KINDS },
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    codeLensProvider: { resolveProvider: false },
    executeCommandProvider: { commands: [ADD_STEP_COMMAND] },
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    documentLinkProvider: { resolveProvider: false },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: { prepareProvider: true },
    semanticTokensProvider: {
      legend: { tokenTypes: TOKEN_TYPES, tokenModifiers: ['declaration'] },
      full: true,
      range: true,
    },
    completionProvider: { triggerCharacters: [' ', '{', ',', '-', '['], resolveProvider: false },
    inlayHintProvider: true,
    notebookDocumentSync: { notebookSelector: [{ notebook: NOTEBOOK_TYPE, cells: NOTEBOOK_CELLS }] },
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: {
        willRename: {
          filters: [
            { pattern: { glob: '**/*.alignbook.yaml', matches: 'file' } },
            { pattern: { glob: '**', matches: 'folder' } },
          ],
        },
      },
    },
    ...(params.capabilities.textDocument?.diagnostic && {
      diagnosticProvider: { identifier: 'alignbook', interFileDependencies: true, workspaceDiagnostics: true },
    }),
  };
}
