/** The status bar item: verdict and next step of the active workbook. */
import {
  Disposable,
  l10n,
  MarkdownString,
  StatusBarAlignment,
  ThemeColor,
  window,
  workspace,
  type StatusBarItem,
  type TextDocument,
} from 'vscode';
import type { Status } from '../model/index.ts';
import { Command } from './command.ts';
import { isEmpty } from './empty.ts';
import type { InFront } from './in-front.ts';
import { LANGUAGE } from './language.ts';
import { latest } from './latest.ts';
import type { Server } from './server.ts';

export class VerdictItem implements Disposable {
  readonly #item: StatusBarItem = window.createStatusBarItem('verdict', StatusBarAlignment.Left);
  readonly #server: Server;
  readonly #front: InFront;
  readonly #subscriptions: Disposable;

  constructor(server: Server, front: InFront) {
    this.#server = server;
    this.#front = front;
    this.#item.name = l10n.t('Alignbook: verdict and next step');
    const refresh = latest(() => this.#update(refresh));
    this.#subscriptions = Disposable.from(
      this.#item,
      front.onDidChange(refresh),
      // A document may become a workbook while it is active; the server is notified of it first.
      workspace.onDidOpenTextDocument(() => setTimeout(refresh)),
      workspace.onDidChangeTextDocument(({ document }) => document.languageId === LANGUAGE && refresh()),
      server.onDidChange(refresh),
    );
    refresh();
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  /** @param again updates once more, for an answer about an earlier text: a request may overtake what was typed */
  async #update(again: () => void): Promise<void> {
    const { workbook } = this.#front;
    if (!workbook) return this.#item.hide();
    const document = window.activeTextEditor?.document;
    const status = await this.#server.status(workbook.toString()).catch(() => undefined);
    if (status && document?.languageId === LANGUAGE && isEarlier(status, document)) setTimeout(again, PAUSE);
    if (status && document?.languageId === LANGUAGE && isEmpty(document)) this.#showEmpty();
    else if (status) this.#show(status);
    else if (this.#server.running) this.#item.hide();
    else this.#showWithoutServer();
  }

  #show(status: Status): void {
    this.#item.text = `${SYMBOL[status.verdict]} ${status.isPractice ? 'PRACTICE · ' : ''}${status.sentence}`;
    this.#item.tooltip = new MarkdownString(`**${verdictInWords(status)}**\n\n${status.full}`);
    this.#item.backgroundColor =
      status.verdict === 'blocked' ? new ThemeColor('statusBarItem.warningBackground') : undefined;
    this.#item.command = status.steps.some(({ cell }) => cell !== undefined) ? Command.addStep : undefined;
    this.#item.accessibilityInformation = {
      label: [verdictInWords(status), ...status.steps.map(({ say }) => say)].join(' '),
    };
    this.#item.show();
  }

  #showEmpty(): void {
    this.#item.text = `$(add) ${l10n.t('empty: fill in from questions')}`;
    this.#item.tooltip = l10n.t('The workbook describes no machine yet. A few questions give its first cells.');
    this.#item.backgroundColor = undefined;
    this.#item.command = Command.fillIn;
    this.#item.accessibilityInformation = undefined;
    this.#item.show();
  }

  #showWithoutServer(): void {
    this.#item.text = `$(circle-slash) ${l10n.t('Alignbook is not running')}`;
    this.#item.tooltip = l10n.t('This workbook is not being checked. Click to restart the server.');
    this.#item.backgroundColor = new ThemeColor('statusBarItem.warningBackground');
    this.#item.command = Command.restart;
    this.#item.accessibilityInformation = undefined;
    this.#item.show();
  }
}

/** ms until the server is asked again. */
const PAUSE = 50;

/** In a notebook each cell has a version of its own, and the server counts those of the whole. */
function isEarlier({ version }: { readonly version: number }, { uri, version: now }: TextDocument): boolean {
  return uri.scheme !== 'vscode-notebook-cell' && version < now;
}

const SYMBOL = { within: '$(pass)', continue: '$(arrow-right)', blocked: '$(warning)' } as const;

function verdictInWords({ verdict, findings }: Status): string {
  if (verdict === 'within') return l10n.t('Within limits');
  if (verdict === 'continue') return l10n.t('Not within limits yet');
  return findings.error > 0 ? l10n.t('No advice until the errors are fixed') : l10n.t('No advice from these marks');
}
