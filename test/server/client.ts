/** A client over standard input and output, as an editor is one; it knows nothing of the server's inside. */
import { spawn, type ChildProcess } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  createProtocolConnection,
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  ExitNotification,
  InitializedNotification,
  InitializeRequest,
  PublishDiagnosticsNotification,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
  type ClientCapabilities,
  type Diagnostic,
  type InitializeResult,
  type ProtocolConnection,
  type TextDocumentContentChangeEvent,
} from 'vscode-languageserver-protocol/node';

export const ROOT = join(fileURLToPath(new URL('.', import.meta.url)), '..', '..');

/** An editor that asks for findings; without `diagnostic` one that waits for them. */
export const PULLING: ClientCapabilities = {
  textDocument: { diagnostic: {}, publishDiagnostics: { relatedInformation: true } },
  workspace: { workspaceFolders: true },
};
export const WAITING: ClientCapabilities = { textDocument: { publishDiagnostics: { relatedInformation: true } } };

export interface Client {
  readonly connection: ProtocolConnection;
  readonly result: InitializeResult;
  open(uri: string, text: string, version?: number): Promise<void>;
  change(uri: string, version: number, ...changes: TextDocumentContentChangeEvent[]): Promise<void>;
  pull(uri: string): Promise<Diagnostic[]>;
  /** The next findings that are sent for it, and are so. */
  received(uri: string, isSo?: (items: Diagnostic[]) => boolean): Promise<Diagnostic[]>;
  /** What was sent last for it, once the server has nothing more to send about it. */
  settled(uri: string): Promise<Diagnostic[]>;
  /** What was sent last for it until now. */
  sent(uri: string): Diagnostic[];
  stop(): Promise<void>;
}

export function started(): ChildProcess {
  return startedWith('inherit');
}

/** @param errors what becomes of its standard error */
export function startedWith(errors: 'inherit' | 'pipe'): ChildProcess {
  return spawn(process.execPath, [join(ROOT, 'dist', 'alignbook.cjs'), 'server', '--stdio'], {
    stdio: ['pipe', 'pipe', errors],
  });
}

export async function connected(
  process: ChildProcess,
  capabilities: ClientCapabilities = PULLING,
  ...folders: string[]
): Promise<Client> {
  const connection = createProtocolConnection(
    new StreamMessageReader(process.stdout!),
    new StreamMessageWriter(process.stdin!),
  );
  const client = await initialized(connection, capabilities, folders);
  return {
    ...client,
    async stop() {
      const ended = new Promise((resolve) => process.once('exit', resolve));
      await connection.sendRequest(ShutdownRequest.type);
      await connection.sendNotification(ExitNotification.type);
      await ended;
      connection.dispose();
    },
  };
}

/** The same over any message transport. */
export async function initialized(
  connection: ProtocolConnection,
  capabilities: ClientCapabilities,
  folders: readonly string[],
  initializationOptions?: object,
): Promise<Omit<Client, 'stop'>> {
  const pending: { uri: string; isSo: (items: Diagnostic[]) => boolean; resolve: (items: Diagnostic[]) => void }[] = [];
  const sent = new Map<string, Diagnostic[]>();
  let count = 0;
  connection.onNotification(PublishDiagnosticsNotification.type, ({ uri, diagnostics }) => {
    count++;
    sent.set(uri, diagnostics);
    for (const one of pending.splice(0)) {
      if (one.uri === uri && one.isSo(diagnostics)) one.resolve(diagnostics);
      else pending.push(one);
    }
  });
  connection.listen();
  const workspaceFolders = folders.length === 0 ? null : folders.map((uri) => ({ uri, name: 'workshop' }));
  const result = await connection.sendRequest(InitializeRequest.type, {
    processId: null,
    rootUri: folders[0] ?? null,
    capabilities,
    workspaceFolders,
    initializationOptions,
  });
  await connection.sendNotification(InitializedNotification.type, {});
  return {
    connection,
    result,
    open: (uri, text, version = 1) =>
      connection.sendNotification(DidOpenTextDocumentNotification.type, {
        textDocument: { uri, languageId: 'alignbook', version, text },
      }),
    change: (uri, version, ...contentChanges) =>
      connection.sendNotification(DidChangeTextDocumentNotification.type, {
        textDocument: { uri, version },
        contentChanges,
      }),
    async pull(uri) {
      const report = await connection.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
      return report.kind === 'full' ? report.items : [];
    },
    async settled(uri) {
      for (let [before, quiet] = [count, 0]; quiet < 3; quiet++) {
        await connection.sendRequest('alignbook/status', { uri });
        if (count > before) [before, quiet] = [count, 0];
      }
      return sent.get(uri) ?? [];
    },
    sent: (uri) => sent.get(uri) ?? [],
    received: (uri, isSo = () => true) => new Promise((resolve) => pending.push({ uri, isSo, resolve })),
  };
}
