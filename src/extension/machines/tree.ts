/** The tree of the machines: groups, machines, facts about each. */
import {
  type Disposable,
  EventEmitter,
  l10n,
  MarkdownString,
  ThemeColor,
  ThemeIcon,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
  workspace,
  type TreeDataProvider,
} from 'vscode';
import {
  namesOf,
  type ListedGroup,
  type ListedMachine,
  type MachineGroup,
  type MachineItem,
  type TextPlace,
} from '../../model/index.ts';
import { Command } from '../command.ts';

export type Node =
  | (ListedGroup & { readonly kind: 'group' })
  | { readonly kind: 'machine'; readonly machine: ListedMachine }
  | { readonly kind: 'item'; readonly machine: ListedMachine; readonly item: MachineItem };

/** What a click opens. */
export interface MachinePlace {
  readonly uri: string;
  readonly place?: TextPlace | undefined;
}

export class MachineTree implements TreeDataProvider<Node>, Disposable {
  readonly #extension: Uri;
  readonly #changed = new EventEmitter<undefined>();
  readonly onDidChangeTreeData = this.#changed.event;
  #groups: readonly ListedGroup[] = [];
  #names: ReturnType<typeof namesOf> = new Map();
  #text = '[]';

  constructor(extension: Uri) {
    this.#extension = extension;
  }

  dispose(): void {
    this.#changed.dispose();
  }

  /** Redraws the tree only if something in it differs, so that it keeps still under the mouse. */
  show(groups: readonly ListedGroup[]): void {
    const text = JSON.stringify(groups);
    if (text === this.#text) return;
    this.#text = text;
    this.#groups = groups;
    this.#names = namesOf(groups.flatMap(({ machines }) => machines));
    this.#changed.fire(undefined);
  }

  getChildren(node?: Node): Node[] {
    if (!node) return this.#groups.map((group) => ({ kind: 'group', ...group }));
    if (node.kind === 'group') return node.machines.map((machine) => ({ kind: 'machine', machine }));
    if (node.kind === 'item' || !('items' in node.machine)) return [];
    return node.machine.items.map((item) => ({ kind: 'item', machine: node.machine, item }));
  }

  getTreeItem(node: Node): TreeItem {
    if (node.kind === 'group') return groupItem(node);
    return node.kind === 'machine' ? this.#machineItem(node.machine) : factItem(node.machine, node.item);
  }

  #machineItem(machine: ListedMachine): TreeItem {
    const name = this.#names.get(machine) ?? '';
    const isReadable = 'items' in machine;
    const hasItems = isReadable && machine.items.length > 0;
    const item = new TreeItem(name, hasItems ? TreeItemCollapsibleState.Collapsed : TreeItemCollapsibleState.None);
    item.id = machine.uri;
    item.description = machine.says;
    item.iconPath = isReadable
      ? this.#sign(machine.state)
      : new ThemeIcon('warning', new ThemeColor('problemsErrorIcon.foreground'));
    item.tooltip = tooltip(machine);
    item.contextValue = isReadable ? 'machine' : 'unreadable';
    item.accessibilityInformation = { label: `${name}: ${machine.says}` };
    const place = 'place' in machine ? machine.place : undefined;
    item.command = openCommand({ uri: machine.uri, place });
    return item;
  }

  #sign(state: string): { readonly light: Uri; readonly dark: Uri } {
    const file = (theme: string) => Uri.joinPath(this.#extension, 'shared', 'icons', `verdict-${state}-${theme}.svg`);
    return { light: file('light'), dark: file('dark') };
  }
}

function groupItem({ group, machines }: ListedGroup): TreeItem {
  const item = new TreeItem(groupName(group), TreeItemCollapsibleState.Expanded);
  item.id = group;
  item.description = String(machines.length);
  return item;
}

function groupName(group: MachineGroup): string {
  switch (group) {
    case 'needs':
      return l10n.t('Needs somebody');
    case 'due':
      return l10n.t('Due within 30 days');
    case 'service':
      return l10n.t('In service');
    case 'practice':
      return l10n.t('Practice');
    case 'unreadable':
      return l10n.t('Not readable');
  }
}

const SYMBOLS: Readonly<Record<MachineItem['kind'], string>> = {
  visit: 'calendar',
  care: 'clock',
  drift: 'graph-line',
  open: 'checklist',
  error: 'error',
};

function factItem({ uri }: ListedMachine, { kind, name, says, place }: MachineItem): TreeItem {
  const item = new TreeItem(name);
  item.id = `${uri} ${kind} ${name}`;
  item.description = says;
  item.iconPath = new ThemeIcon(SYMBOLS[kind]);
  item.tooltip = `${name}: ${says}`;
  item.command = openCommand({ uri, place });
  return item;
}

function openCommand(place: MachinePlace): NonNullable<TreeItem['command']> {
  return { command: Command.openMachine, title: l10n.t('Open'), arguments: [place] };
}

/** What to do now, as every view states it. */
function tooltip(machine: ListedMachine): MarkdownString {
  const text = new MarkdownString();
  if ('name' in machine) {
    const { name, title, says, sentence, then } = machine;
    text.appendMarkdown('**').appendText([name, title].filter(Boolean).join(', ')).appendMarkdown('**\n\n');
    for (const paragraph of [says, sentence, then.join(' ')]) text.appendText(paragraph).appendMarkdown('\n\n');
  } else text.appendText(machine.says).appendMarkdown('\n\n');
  return text.appendText(workspace.asRelativePath(Uri.parse(machine.uri)));
}
