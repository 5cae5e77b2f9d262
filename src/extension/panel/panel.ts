/**
 * The panel beside the text: shows the view model of the active workbook, and applies the user's actions to the text.
 */
import { Disposable, l10n, Uri, ViewColumn, window, workspace, type TextDocument, type WebviewPanel } from 'vscode';
import {
  ASK_CELL,
  isFromPanel,
  type FromPanel,
  type PanelView,
  type PanelOptions,
  type TextPlace,
  type ToPanel,
} from '../../model/index.ts';
import { append, logStep } from '../add-step.ts';
import { latest } from '../latest.ts';
import type { Server } from '../server.ts';
import { activeWorkbook, openNotebook, showText, workbookOf } from '../shown.ts';
import { askExpectation, writeExpectation } from '../practice/fire.ts';
import { practise } from '../practice/practise.ts';
import { applyVersioned, rangeOf } from '../apply.ts';
import { pageIn } from './page.ts';
import { insteadOfSigned } from './signed.ts';

/** As declared in package.json. */
const PANEL = 'alignbook.targets';

export class Panel implements Disposable {
  readonly #server: Server;
  readonly #extension: Uri;
  readonly #subscriptions: Disposable;
  readonly #refresh = latest(() => this.#send());
  readonly #follow = latest(() => this.#sendSelected());
  #panel: WebviewPanel | undefined;
  #uri: Uri | undefined;
  #options: PanelOptions = {};
  #view: PanelView | undefined;

  constructor(server: Server, extension: Uri) {
    this.#server = server;
    this.#extension = extension;
    this.#subscriptions = Disposable.from(
      window.registerWebviewPanelSerializer(PANEL, {
        deserializeWebviewPanel: (panel, state) => this.#adopt(panel, uriIn(state)),
      }),
      window.onDidChangeActiveTextEditor(() => this.#turnTo(activeWorkbook())),
      window.onDidChangeActiveNotebookEditor(() => this.#turnTo(activeWorkbook())),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.#isShown(textEditor.document) && this.#follow()),
      workspace.onDidChangeTextDocument(({ document }) => this.#isShown(document) && this.#refresh()),
      workspace.onDidChangeNotebookDocument(
        ({ notebook, contentChanges }) => contentChanges.length > 0 && this.#is(notebook.uri) && this.#refresh(),
      ),
      server.onDidChange(this.#refresh),
    );
  }

  /** What it shows, while it is open. */
  get workbook(): Uri | undefined {
    return this.#panel && this.#uri;
  }

  dispose(): void {
    this.#panel?.dispose();
    this.#subscriptions.dispose();
  }

  async show(): Promise<void> {
    this.#uri = activeWorkbook() ?? this.#uri;
    const column = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    if (this.#panel) this.#panel.reveal(undefined, true);
    else
      await this.#adopt(
        window.createWebviewPanel(PANEL, l10n.t('Targets'), column, { enableFindWidget: true }),
        this.#uri,
      );
    // A new page receives the view model as soon as it is ready.
    this.#refresh();
  }

  /** From a lens above a blank of a practice machine. */
  async fire(fired: { readonly uri: Uri; readonly place: TextPlace } | undefined): Promise<void> {
    if (!fired) return;
    const { uri, place } = fired;
    const words = await askExpectation(this.#server, uri, place);
    if (words === undefined) return;
    await this.show();
    await this.#fire(uri, place, words);
  }

  /** A note in the log, so that it is counted and can be undone. */
  async askAdvice(): Promise<void> {
    const uri = activeWorkbook() ?? this.#uri;
    if (uri) await append(uri, [ASK_CELL]);
  }

  async #fire(uri: Uri, { cell, path }: TextPlace, words: string): Promise<void> {
    if (!(await writeExpectation(this.#server, uri, { cell, path }, words))) return;
    this.#uri = uri;
    this.#options = { ...this.#options, station: undefined, fired: { cell, path } };
    this.#refresh();
  }

  async #shoot(uri: Uri): Promise<void> {
    const shoot = this.#view?.practice?.shoot;
    if (shoot) await append(uri, [shoot.cell]);
  }

  async #close(uri: Uri): Promise<void> {
    const closing = await this.#server.request('alignbook/closing', { uri: uri.toString() });
    if (closing) this.#post({ type: 'closing', closing });
  }

  async #adopt(panel: WebviewPanel, uri: Uri | undefined): Promise<void> {
    this.#panel?.dispose();
    this.#panel = panel;
    this.#uri = uri;
    panel.webview.options = { enableScripts: true, localResourceRoots: [] };
    panel.webview.onDidReceiveMessage((message: unknown) => isFromPanel(message) && void this.#receive(message));
    panel.onDidDispose(() => {
      if (this.#panel === panel) this.#panel = undefined;
    });
    panel.webview.html = await pageIn(this.#extension);
  }

  #isShown(document: TextDocument): boolean {
    return this.#is(workbookOf(document));
  }

  #is(workbook: Uri): boolean {
    return this.#panel !== undefined && workbook.toString() === this.#uri?.toString();
  }

  #turnTo(workbook: Uri | undefined): void {
    if (!this.#panel || !workbook || this.#is(workbook)) return;
    this.#uri = workbook;
    this.#options = {};
    this.#refresh();
  }

  async #send(): Promise<void> {
    const uri = this.#uri?.toString();
    // While the server does not run, the page keeps what it shows.
    if (!this.#panel || !this.#uri || uri === undefined || !this.#server.running) return;
    // After a reload the document may not be open yet.
    if (!openNotebook(this.#uri)) await workspace.openTextDocument(this.#uri).then(undefined, () => undefined);
    const params = { uri, ...this.#options };
    const view = await this.#server.request('alignbook/panel', params).catch(() => undefined);
    this.#view = view;
    const name = nameOf(this.#uri);
    this.#panel.title = view?.practice ? l10n.t('PRACTICE: {0}', name) : l10n.t('Targets: {0}', name);
    this.#post({ type: 'sheet', uri, file: workspace.asRelativePath(Uri.parse(uri)), sheet: view ?? null });
  }

  /** Sends the mark at the cursor; switches to its station if another one is shown. */
  async #sendSelected(): Promise<void> {
    const active = window.activeTextEditor;
    const editor =
      active && this.#isShown(active.document)
        ? active
        : window.visibleTextEditors.find(({ document }) => this.#isShown(document));
    if (!editor) return;
    const { line, character } = editor.selection.active;
    const params = { uri: editor.document.uri.toString(), position: { line, character } };
    const atCursor = await this.#server.request('alignbook/markAt', params).catch(() => undefined);
    if (atCursor && atCursor.station !== this.#view?.figure.station) {
      this.#options = { station: atCursor.station };
      await this.#send();
    }
    this.#post({ type: 'selected', mark: atCursor?.mark ?? null });
  }

  #post(message: ToPanel): void {
    void this.#panel?.webview.postMessage(message);
  }

  async #receive(message: FromPanel): Promise<void> {
    if (message.type === 'ask') {
      const { of, station, round, turns, legs, visits } = message;
      const { fired } = this.#options;
      this.#options =
        of === undefined || of === this.#uri?.toString() ? { station, round, turns, legs, visits, fired } : {};
      this.#refresh();
      return;
    }
    const uri = this.#uri;
    if (!uri) return;
    if (message.type === 'place') return this.#place(uri, message);
    if (message.type === 'select') return this.#select(uri, message);
    if (message.type === 'addStep') return logStep(this.#server, uri, message.way);
    if (message.type === 'fire') return this.#fire(uri, message, message.expected);
    if (message.type === 'shoot') return this.#shoot(uri);
    if (message.type === 'askAdvice') return this.askAdvice();
    if (message.type === 'closing') return this.#close(uri);
    if (message.type === 'practise') return void (await practise(this.#server, message.level));
    if (message.type === 'addChecks') return this.#addChecks(uri, message.done);
    if (this.#view?.triedCell !== undefined) {
      this.#options = { ...this.#options, turns: undefined };
      await append(uri, [this.#view.triedCell]);
    }
  }

  async #select(workbook: Uri, { cell, path, quietly }: Extract<FromPanel, { type: 'select' }>): Promise<void> {
    const params = { uri: workbook.toString(), cell, path };
    const place = await this.#server.request('alignbook/location', params);
    if (!place) return;
    await showText(await workspace.openTextDocument(Uri.parse(place.uri)), rangeOf(place.range), quietly);
  }

  /** What is not done stays open. */
  async #addChecks(workbook: Uri, done: readonly number[]): Promise<void> {
    const checks = this.#view?.now.checks;
    const lines = checks?.lines.filter((_, k) => done.includes(k)) ?? [];
    if (checks && lines.length > 0) await append(workbook, [`${checks.head}${lines.join('')}`]);
  }

  /** As one edit, which one undo reverts. */
  async #place(workbook: Uri, { type: _, ...mark }: Extract<FromPanel, { type: 'place' }>): Promise<void> {
    const params = { uri: workbook.toString(), ...mark };
    let answer = await this.#server.request('alignbook/placeMark', params);
    if (answer?.signed) {
      const instead = await insteadOfSigned(answer.signed);
      answer = instead && (await this.#server.request('alignbook/placeMark', { ...params, ...instead }));
    }
    if (!answer) return this.#refresh();
    if (!(await applyVersioned(answer))) this.#refresh();
  }
}

/** `dory` of `machines/dory.alignbook.yaml`. */
function nameOf(workbook: Uri): string {
  return workbook.path.slice(workbook.path.lastIndexOf('/') + 1).replace(/\.alignbook\.ya?ml$/, '');
}

/** The workbook in the state that the page stored before a reload. */
function uriIn(state: unknown): Uri | undefined {
  const uri = typeof state === 'object' && state !== null && 'uri' in state ? state.uri : undefined;
  return typeof uri === 'string' ? Uri.parse(uri) : undefined;
}
