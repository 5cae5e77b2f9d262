/** The language server as the extension uses it: start, requests, restart, and notifications about them. */
import { CodeLens, commands, type Disposable, EventEmitter, l10n, window, type LogOutputChannel } from 'vscode';
import { State, type BaseLanguageClient, type LanguageClientOptions } from 'vscode-languageclient';
import { ADD_STEP_COMMAND, MACHINES_CHANGED, type Requests } from '../model/index.ts';
import { Command } from './command.ts';
import { LANGUAGE } from './language.ts';
import { fireLenses } from './practice/lenses.ts';
import { logThrough } from './log.ts';
import { RestartPolicy } from './restart-policy.ts';

/** Creates the client: a process in the desktop editor, a worker in the browser. */
export type Connect = (id: string, name: string, options: LanguageClientOptions) => BaseLanguageClient;

export class Server implements Disposable {
  readonly #client: BaseLanguageClient;
  readonly #log: LogOutputChannel;
  readonly #changed = new EventEmitter<void>();
  /** The server started or stopped answering. */
  readonly onDidChange = this.#changed.event;
  readonly #machinesChanged = new EventEmitter<void>();
  /** Workbooks in the open folders changed on disk. */
  readonly onDidChangeMachines = this.#machinesChanged.event;

  constructor(connect: Connect, log: LogOutputChannel) {
    this.#log = log;
    this.#client = connect('alignbook', 'Alignbook', {
      documentSelector: [{ language: LANGUAGE }],
      synchronize: { configurationSection: LANGUAGE },
      // The client's command asks which steps are done, instead of logging all.
      middleware: {
        executeCommand: (command, given, next) =>
          command === ADD_STEP_COMMAND ? commands.executeCommand(Command.addStep) : next(command, given),
        // Other editors have no panel, so the server offers no lens for it.
        provideCodeLenses: async (document, token, next) => [
          ...withTargets((await next(document, token)) ?? []),
          ...(await fireLenses((uri) => this.request('alignbook/blanks', { uri }), document)),
        ],
      },
      outputChannel: log,
      errorHandler: new RestartPolicy(log),
    });
    logThrough(this.#client, log);
    this.#client.onNotification(MACHINES_CHANGED, () => this.#machinesChanged.fire());
    this.#client.onDidChangeState(async ({ newState }) => {
      // The state changes before the server knows the open documents; `start` resolves after that.
      if (newState === State.Running) await this.#client.start();
      this.#changed.fire();
    });
  }

  get running(): boolean {
    return this.#client.state === State.Running;
  }

  /** Resolves when the server answers, or when the user was notified that it does not. */
  async start(): Promise<void> {
    try {
      await this.#client.start();
      this.#log.info('The server answers.');
    } catch (problem) {
      this.#log.error(problem instanceof Error ? problem : String(problem));
      await this.#reportStartFailure();
    }
  }

  async restart(): Promise<void> {
    if (this.#client.state === State.Starting) await this.start();
    if (this.running) await this.#client.stop();
    await this.start();
  }

  /** The status of a workbook; undefined if the server does not run or has none. */
  async status(uri: string): Promise<Requests['alignbook/status']['answer'] | undefined> {
    return this.request('alignbook/status', { uri });
  }

  /** Undefined if the server does not run, or has no answer. */
  async request<Name extends keyof Requests>(
    name: Name,
    params: Requests[Name]['params'],
  ): Promise<NonNullable<Requests[Name]['answer']> | undefined> {
    if (!this.running) return undefined;
    return (await this.#client.sendRequest<Requests[Name]['answer']>(name, params)) ?? undefined;
  }

  dispose(): void {
    this.#changed.dispose();
    this.#machinesChanged.dispose();
    void this.#client.dispose();
  }

  async #reportStartFailure(): Promise<void> {
    const showLog = l10n.t('Show Server Messages');
    const answer = await window.showErrorMessage(
      l10n.t('Alignbook could not start its server. Workbooks are not checked. You can continue to edit.'),
      showLog,
    );
    if (answer === showLog) this.#log.show();
  }
}

/** Adds `Show Targets` beside the lenses above the last cell. */
function withTargets(lenses: readonly CodeLens[]): CodeLens[] {
  return [
    ...lenses,
    ...lenses
      .slice(0, 1)
      .map(({ range }) => new CodeLens(range, { title: l10n.t('Show Targets'), command: Command.showTargets })),
  ];
}
