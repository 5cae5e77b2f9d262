/** The workbook in front: in the active editor, or shown by the targets or the record while these have the focus. */
import { Disposable, EventEmitter, TabInputWebview, window, type Event, type Uri } from 'vscode';
import type { Panel } from './panel/panel.ts';
import type { RecordView } from './record/record.ts';
import { activeWorkbook } from './shown.ts';

export class InFront implements Disposable {
  readonly #pages: Readonly<Record<string, () => Uri | undefined>>;
  readonly #changed = new EventEmitter<void>();
  /** Another editor or page may be in front. */
  readonly onDidChange: Event<void> = this.#changed.event;
  readonly #subscriptions: Disposable;

  constructor(panel: Panel, record: RecordView) {
    // By their types, as declared in package.json.
    this.#pages = { 'alignbook.targets': () => panel.workbook, 'alignbook.record': () => record.workbook };
    const changed = () => this.#changed.fire();
    this.#subscriptions = Disposable.from(
      this.#changed,
      window.onDidChangeActiveTextEditor(changed),
      window.onDidChangeActiveNotebookEditor(changed),
      window.tabGroups.onDidChangeTabs(changed),
      window.tabGroups.onDidChangeTabGroups(changed),
    );
  }

  dispose(): void {
    this.#subscriptions.dispose();
  }

  get workbook(): Uri | undefined {
    return activeWorkbook() ?? this.#onPage();
  }

  #onPage(): Uri | undefined {
    const input = window.tabGroups.activeTabGroup.activeTab?.input;
    if (!(input instanceof TabInputWebview)) return undefined;
    // The editor puts a prefix before the type.
    return Object.entries(this.#pages).find(([type]) => input.viewType.endsWith(type))?.[1]();
  }
}
