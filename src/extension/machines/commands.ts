/** The commands of the list of machines. */
import { commands, type Disposable, type Uri } from 'vscode';
import { Command } from '../command.ts';
import type { Panel } from '../panel/panel.ts';
import type { RecordView } from '../record/record.ts';
import type { Server } from '../server.ts';
import { openExample } from './examples.ts';
import { openMachine } from './open.ts';
import type { MachinePlace, Node } from './tree.ts';
import type { MachinesView } from './view.ts';

export function registerMachineCommands(
  server: Server,
  panel: Panel,
  record: RecordView,
  view: MachinesView,
  extension: Uri,
): Disposable[] {
  /** Both views show the workbook in front. */
  const inFront = async (node: Node | undefined, show: () => Promise<void>) => {
    if (node === undefined || node.kind === 'group') return;
    await openMachine(server, { uri: node.machine.uri });
    await show();
  };
  return [
    commands.registerCommand(Command.openMachine, (place: MachinePlace) => openMachine(server, place)),
    commands.registerCommand(Command.machineTargets, (node?: Node) => inFront(node, () => panel.show())),
    commands.registerCommand(Command.machineRecord, (node?: Node) => inFront(node, () => record.show())),
    commands.registerCommand(Command.readMachines, view.readAnew),
    commands.registerCommand(Command.openExample, () => openExample(extension)),
  ];
}
