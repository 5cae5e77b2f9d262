/** A server under measurement: the messages sent to it, and its response times. Times in ms. */
import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import {
  CompletionRequest,
  ConfigurationRequest,
  createProtocolConnection,
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  HoverRequest,
  InitializedNotification,
  InitializeRequest,
  PublishDiagnosticsNotification,
  RegistrationRequest,
  StreamMessageReader,
  StreamMessageWriter,
  type Diagnostic,
  type ProtocolConnection,
} from 'vscode-languageserver-protocol/node.js';
import type { Place } from './seeded.ts';

export interface Subject {
  readonly name: string;
  readonly command: readonly string[];
  readonly language: string;
  /** Its fixed delay before it processes a text. */
  readonly delay: number;
  readonly settings: Readonly<Record<string, unknown>>;
}

export class Run {
  private readonly subject: Subject;
  private readonly process: ChildProcess;
  private readonly connection: ProtocolConnection;
  private readonly uri: string;
  private readonly waiting = new Set<(result: readonly Diagnostic[]) => void>();
  private version = 1;

  private constructor(subject: Subject, uri: string) {
    this.subject = subject;
    this.uri = uri;
    this.process = spawn(process.execPath, subject.command, { stdio: ['pipe', 'pipe', 'ignore'] }).setMaxListeners(0);
    this.connection = createProtocolConnection(
      new StreamMessageReader(this.process.stdout!),
      new StreamMessageWriter(this.process.stdin!),
    );
  }

  static async start(subject: Subject, uri: string): Promise<Run> {
    const run = new Run(subject, uri);
    const { connection } = run;
    connection.onNotification(PublishDiagnosticsNotification.type, ({ diagnostics }) => {
      for (const listener of run.waiting) listener(diagnostics);
    });
    connection.onRequest(ConfigurationRequest.type, ({ items }) =>
      items.map(({ section }) => subject.settings[section ?? ''] ?? {}),
    );
    connection.onRequest(RegistrationRequest.type, () => undefined);
    connection.listen();
    const capabilities = {
      workspace: { configuration: true },
      textDocument: { hover: {}, completion: { completionItem: { snippetSupport: true } }, publishDiagnostics: {} },
    };
    await connection.sendRequest(InitializeRequest.type, {
      processId: null,
      rootUri: null,
      capabilities,
      workspaceFolders: null,
    });
    await connection.sendNotification(InitializedNotification.type, {});
    // The server requests settings after its response.
    await new Promise((resolve) => setTimeout(resolve, 300));
    return run;
  }

  /** Time from now until the first findings that are as expected. */
  until(isSo: (result: readonly Diagnostic[]) => boolean): Promise<number> {
    const start = performance.now();
    return new Promise((resolve, reject) => {
      this.process.once('exit', (code) => reject(new Error(`${this.subject.name} ended with ${code}`)));
      const listener = (result: readonly Diagnostic[]) => {
        if (!isSo(result)) return;
        this.waiting.delete(listener);
        resolve(performance.now() - start);
      };
      this.waiting.add(listener);
    });
  }

  open(text: string): Promise<void> {
    const { uri, subject, version } = this;
    return this.connection.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId: subject.language, version, text },
    });
  }

  type({ line, character }: Place, text: string): Promise<void> {
    const range = { start: { line, character }, end: { line, character } };
    return this.connection.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri: this.uri, version: ++this.version },
      contentChanges: [{ range, text }],
    });
  }

  async hover(position: Place): Promise<number> {
    const start = performance.now();
    await this.connection.sendRequest(HoverRequest.type, { textDocument: { uri: this.uri }, position });
    return performance.now() - start;
  }

  async completion(position: Place): Promise<number> {
    const start = performance.now();
    await this.connection.sendRequest(CompletionRequest.type, { textDocument: { uri: this.uri }, position });
    return performance.now() - start;
  }

  /** Resident memory, MB. */
  memory(): number {
    return Number(execFileSync('ps', ['-o', 'rss=', '-p', String(this.process.pid)], { encoding: 'utf8' })) / 1000;
  }

  async stop(): Promise<void> {
    this.process.removeAllListeners('exit');
    const ended = new Promise((resolve) => this.process.once('exit', resolve));
    this.process.kill('SIGKILL');
    await ended;
    this.connection.dispose();
  }
}
