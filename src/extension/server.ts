/** The language server as the extension sees it: started, asked, started again when it stopped, and what is said of that. */
import { CodeLens, commands, type Disposable, EventEmitter, l10n, window, type LogOutputChannel } from 'vscode';
import { State, type BaseLanguageClient, type LanguageClientOptions } from 'vscode-languageclient';
import { ADD_STEP_COMMAND, STATUS_REQUEST, type Status, type UriParams } from '../../shared/messages.ts';
import { Command } from './command.ts';
import { LANGUAGE } from './language.ts';
import { logThrough } from './log.ts';
import { Stops } from './stops.ts';

/** Makes the client: a process in the desktop's editor, a worker in the browser's. */
export type Connect = (id: string, name: string, options: LanguageClientOptions) => BaseLanguageClient;

export class Server implements Disposable {
  readonly #client: BaseLanguageClient;
  readonly #log: LogOutputChannel;
  readonly #changed = new EventEmitter<void>();
  /** It began or ceased to answer. */
  readonly onDidChange = this.#changed.event;

  constructor(connect: Connect, log: LogOutputChannel) {
    this.#log = log;
    this.#client = connect('alignbook', 'Alignbook', {
      documentSelector: [{ language: LANGUAGE }],
      synchronize: { configurationSection: LANGUAGE },
      // What the server would do without asking is asked here, wherever it is clicked.
      middleware: {
        executeCommand: (command, given, next) =>
          command === ADD_STEP_COMMAND ? commands.executeCommand(Command.addStep) : next(command, given),
        // Other editors have no panel, so the server does not offer it.
        provideCodeLenses: async (document, token, next) => withTargets((await next(document, token)) ?? []),
      },
      outputChannel: log,
      errorHandler: new Stops(log),
    });
    logThrough(this.#client, log);
    this.#client.onDidChangeState(async ({ newState }) => {
      // It runs before it has been told what is open; `start` tells when it has.
      if (newState === State.Running) await this.#client.start();
      this.#changed.fire();
    });
  }

  get running(): boolean {
    return this.#client.state === State.Running;
  }

  /** Resolves when it answers, or when the person has been told that it does not. */
  async start(): Promise<void> {
    try {
      await this.#client.start();
      this.#log.info('The server answers.');
    } catch (problem) {
      this.#log.error(problem instanceof Error ? problem : String(problem));
      await this.#sayThatItFailed();
    }
  }

  async restart(): Promise<void> {
    if (this.#client.state === State.Starting) await this.start();
    if (this.running) await this.#client.stop();
    await this.start();
  }

  /** What the log in a document comes to; undefined where there is nobody to ask, or nothing to say. */
  async status(uri: string): Promise<Status | undefined> {
    return this.ask<Status>(STATUS_REQUEST, { uri });
  }

  /** One of the requests in `shared/messages.ts`. */
  async ask<Answer>(request: string, params: UriParams): Promise<Answer | undefined> {
    if (!this.running) return undefined;
    return (await this.#client.sendRequest<Answer | null>(request, params)) ?? undefined;
  }

  dispose(): void {
    this.#changed.dispose();
    void this.#client.dispose();
  }

  async #sayThatItFailed(): Promise<void> {
    const showLog = l10n.t('Show Log');
    const answer = await window.showErrorMessage(
      l10n.t('Alignbook could not start its server. Workbooks are not checked. You can continue to edit.'),
      showLog,
    );
    if (answer === showLog) this.#log.show();
  }
}

/** Beside what is offered above the last cell. */
function withTargets(lenses: readonly CodeLens[]): CodeLens[] {
  return [
    ...lenses,
    ...lenses
      .slice(0, 1)
      .map(({ range }) => new CodeLens(range, { title: l10n.t('Show Targets'), command: Command.showTargets })),
  ];
}
