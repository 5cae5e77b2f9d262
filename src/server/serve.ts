/** The server: what it can do, and who does it. */
import { TextDocumentSyncKind, type Connection, type InitializeParams, type InitializeResult } from 'vscode-languageserver';
import { createDesk } from './desk.ts';
import { followDocuments, watchFiles } from './documents.ts';
import { offerFindings } from './findings.ts';
import type { Host, Start } from './host.ts';
import { TextPaper } from './paper.ts';
import { createSession, guarded, type Session } from './session.ts';
import { settingsFrom } from './settings.ts';
import { answerStatus } from './status.ts';
import { offerViews } from './views.ts';

/** @param starting told what the client says of itself before anything is asked of the host */
export function serve(connection: Connection, host: Host, version: string, starting: (start: Start) => void = () => undefined): void {
  const desk = createDesk(host, (uri, text) => new TextPaper(uri, 0, text));
  let session: Session;

  connection.onInitialize((params): InitializeResult => {
    starting(startOf(params));
    session = createSession(connection, host, desk, params);
    session.settings = settingsFrom(optionsOf(params).settings);
    const findings = offerFindings(session);
    followDocuments(session, findings);
    answerStatus(session);
    offerViews(session);
    return {
      serverInfo: { name: 'alignbook', version },
      capabilities: {
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: { includeText: false } },
        hoverProvider: true,
        inlayHintProvider: true,
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
        ...(params.capabilities.textDocument?.diagnostic && { diagnosticProvider: { identifier: 'alignbook', interFileDependencies: true, workspaceDiagnostics: true } }),
      },
    };
  });

  connection.onInitialized(() => void guarded(session, 'start', undefined, () => started(session))(undefined));
  connection.onDidChangeConfiguration(({ settings }) => {
    session.settings = settingsFrom((settings as { alignbook?: unknown } | null)?.alignbook);
  });
  connection.onShutdown(() => undefined);
  connection.listen();
}

interface Options {
  readonly settings?: unknown;
  /** Address of the folder with the pages about findings. */
  readonly pages?: string;
}

function optionsOf({ initializationOptions }: InitializeParams): Options {
  return (initializationOptions ?? {}) as Options;
}

function startOf(params: InitializeParams): Start {
  return { folders: params.workspaceFolders?.map(({ uri }) => uri) ?? (params.rootUri ? [params.rootUri] : []), pages: optionsOf(params).pages };
}

async function started(session: Session): Promise<void> {
  const { connection, client, folders } = session;
  await watchFiles(session);
  if (client.workspace?.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      for (const { uri } of added) folders.add(uri);
      for (const { uri } of removed) folders.delete(uri);
    });
  }
  if (client.workspace?.configuration) session.settings = settingsFrom(await connection.workspace.getConfiguration('alignbook'));
}
