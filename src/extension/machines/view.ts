/**
 * The view in the side bar with every machine of the open folders. The server reads the workbooks; this asks again when
 * something may have changed, and after midnight.
 */
import { commands, Disposable, l10n, window, workspace, type TreeView, type Uri } from 'vscode';
import { inGroups, type MachineList } from '../../model/index.ts';
import { done } from '../begun.ts';
import { LANGUAGE } from '../language.ts';
import { latest } from '../latest.ts';
import { NOTEBOOK } from '../notebook/type.ts';
import type { Server } from '../server.ts';
import { today } from '../today.ts';
import { MachineTree, type Node } from './tree.ts';

/** As declared in package.json: the view, and the key for the text of an empty one. */
const VIEW = 'alignbook.machines';
const ARE_NONE = 'alignbook.hasNoMachines';

/** ms of quiet after typing: the workbook is judged anew. */
const AFTER_TYPING = 1500;
/** ms in which changes of files arrive together. */
const AFTER_CHANGE = 100;
/** ms between two requests of a list that is still being read. */
const BETWEEN = 20;
/** ms between two looks at the date. */
const DATE = 10 * 60_000;

export class MachinesView implements Disposable {
  readonly #server: Server;
  readonly #tree: MachineTree;
  readonly #view: TreeView<Node>;
  readonly #subscriptions: Disposable;
  readonly #refresh = latest(() => this.#update());
  #anew = false;
  #shown = '';
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(server: Server, extension: Uri) {
    this.#server = server;
    this.#tree = new MachineTree(extension);
    this.#view = window.createTreeView(VIEW, { treeDataProvider: this.#tree, showCollapseAll: true });
    const date = setInterval(() => today() !== this.#shown && this.#refresh(), DATE);
    this.#subscriptions = Disposable.from(
      this.#view,
      this.#tree,
      new Disposable(() => clearInterval(date)),
      new Disposable(() => clearTimeout(this.#timer)),
      server.onDidChange(this.#refresh),
      server.onDidChangeMachines(() => this.#soon(AFTER_CHANGE)),
      workspace.onDidChangeTextDocument(({ document }) => document.languageId === LANGUAGE && this.#soon(AFTER_TYPING)),
      workspace.onDidChangeNotebookDocument(
        ({ notebook, contentChanges }) =>
          notebook.notebookType === NOTEBOOK && contentChanges.length > 0 && this.#soon(AFTER_TYPING),
      ),
      workspace.onDidSaveTextDocument(({ languageId }) => languageId === LANGUAGE && this.#soon(AFTER_CHANGE)),
      workspace.onDidSaveNotebookDocument(({ notebookType }) => notebookType === NOTEBOOK && this.#soon(AFTER_CHANGE)),
      // From then on the file counts, not what was typed.
      workspace.onDidCloseTextDocument(({ languageId }) => languageId === LANGUAGE && this.#soon(AFTER_CHANGE)),
      workspace.onDidChangeWorkspaceFolders(() => this.#soon(AFTER_CHANGE)),
      // The workbooks in a folder that is deleted or renamed get no event of their own.
      workspace.onDidDeleteFiles(() => this.#soon(AFTER_CHANGE, true)),
      workspace.onDidRenameFiles(() => this.#soon(AFTER_CHANGE, true)),
      window.onDidChangeWindowState(({ focused }) => focused && today() !== this.#shown && this.#refresh()),
    );
    this.#refresh();
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  /** Reads every file again. */
  readonly readAnew = (): void => {
    this.#anew = true;
    this.#refresh();
  };

  #soon(after: number, anew = false): void {
    this.#anew ||= anew;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(this.#refresh, after);
  }

  async #update(): Promise<void> {
    for (let rest = 1; rest > 0; ) {
      const params = { today: today(), anew: this.#anew };
      this.#anew = false;
      const list = await this.#server.request('alignbook/machines', params).catch(() => undefined);
      // While the server does not run, what is known stays.
      if (!list) return;
      this.#shown = params.today;
      this.#show(list);
      rest = list.rest;
      if (rest > 0) await new Promise((resolve) => setTimeout(resolve, BETWEEN));
    }
  }

  #show({ machines, rest }: MachineList): void {
    const groups = inGroups(machines);
    this.#tree.show(groups);
    const count = groups.find(({ group }) => group === 'needs')?.machines.length ?? 0;
    this.#view.badge = count === 0 ? undefined : { value: count, tooltip: inWords(count) };
    this.#view.message = rest === 0 ? '' : l10n.t('Reading {0} more…', rest);
    if (machines.length > 0) done('hasWorkbook');
    void commands.executeCommand('setContext', ARE_NONE, machines.length === 0 && rest === 0);
  }
}

function inWords(count: number): string {
  return count === 1 ? l10n.t('1 machine needs somebody') : l10n.t('{0} machines need somebody', count);
}
