/** Restarts a server that crashed and notifies the user, up to a limit. */
import { commands, l10n, window, type LogOutputChannel } from 'vscode';
import {
  CloseAction,
  ErrorAction,
  type CloseHandlerResult,
  type ErrorHandler,
  type ErrorHandlerResult,
} from 'vscode-languageclient';
import { Command } from './command.ts';

/** After more crashes than this within that time, in milliseconds, a restart does not help. */
const MOST = 4;
const WITHIN = 3 * 60_000;

type Show = (message: string, ...actions: string[]) => Thenable<string | undefined>;

export class RestartPolicy implements ErrorHandler {
  readonly #log: LogOutputChannel;
  #times: number[] = [];

  constructor(log: LogOutputChannel) {
    this.#log = log;
  }

  error(problem: Error): ErrorHandlerResult {
    this.#log.warn(problem.message);
    return { action: ErrorAction.Continue };
  }

  closed(): CloseHandlerResult {
    const now = Date.now();
    this.#times = [...this.#times.filter((time) => now - time < WITHIN), now];
    const again = this.#times.length <= MOST;
    void (again ? this.#reportRestart() : this.#reportGivingUp());
    return {
      action: again ? CloseAction.Restart : CloseAction.DoNotRestart,
      message: 'The server stopped.',
      handled: true,
    };
  }

  async #reportRestart(): Promise<void> {
    await this.#notify(
      window.showWarningMessage,
      l10n.t('The Alignbook server stopped and is restarting. Your workbook is unchanged.'),
    );
  }

  async #reportGivingUp(): Promise<void> {
    this.#times = [];
    const restart = l10n.t('Restart Server');
    const answer = await this.#notify(
      window.showErrorMessage,
      l10n.t(
        'The Alignbook server crashed repeatedly and was not restarted. Your workbook is unchanged, but it is no longer being checked.',
      ),
      restart,
    );
    if (answer === restart) await commands.executeCommand(Command.restart);
  }

  async #notify(show: Show, message: string, ...actions: string[]): Promise<string | undefined> {
    const showLog = l10n.t('Show Server Messages');
    const answer = await show(message, ...actions, showLog);
    if (answer === showLog) this.#log.show();
    return answer;
  }
}
