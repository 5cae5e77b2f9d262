/** What happens when the server stops of itself: it is started again and that is said, but not for ever. */
import { commands, l10n, window, type LogOutputChannel } from 'vscode';
import {
  CloseAction,
  ErrorAction,
  type CloseHandlerResult,
  type ErrorHandler,
  type ErrorHandlerResult,
} from 'vscode-languageclient';
import { Command } from './command.ts';

/** So many stops within so long a time, in milliseconds, are too many: something is wrong that a restart does not mend. */
const MOST = 4;
const WITHIN = 3 * 60_000;

type Show = (message: string, ...actions: string[]) => Thenable<string | undefined>;

export class Stops implements ErrorHandler {
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
    void (again ? this.#sayAgain() : this.#sayEnough());
    return {
      action: again ? CloseAction.Restart : CloseAction.DoNotRestart,
      message: 'The server stopped.',
      handled: true,
    };
  }

  async #sayAgain(): Promise<void> {
    await this.#say(
      window.showWarningMessage,
      l10n.t('The Alignbook server stopped and is restarting. Your workbook is unchanged.'),
    );
  }

  async #sayEnough(): Promise<void> {
    this.#times = [];
    const restart = l10n.t('Restart Server');
    const answer = await this.#say(
      window.showErrorMessage,
      l10n.t(
        'The Alignbook server crashed repeatedly and was not restarted. Your workbook is unchanged, but it is no longer being checked.',
      ),
      restart,
    );
    if (answer === restart) await commands.executeCommand(Command.restart);
  }

  async #say(show: Show, message: string, ...actions: string[]): Promise<string | undefined> {
    const showLog = l10n.t('Show Log');
    const answer = await show(message, ...actions, showLog);
    if (answer === showLog) this.#log.show();
    return answer;
  }
}
