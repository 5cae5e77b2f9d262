/** The commands of the list of machines. */
import { commands, Uri, type Disposable } from 'vscode';
import { Command } from '../command.ts';
import type { Parts } from '../commands.ts';
import { openExample } from './examples.ts';
import { openMachine } from './open.ts';
import type { MachinePlace, Node } from './tree.ts';
import type { MachinesView } from './view.ts';

export function registerMachineCommands({ server, panel, record, extension }: Parts, view: MachinesView): Disposable[] {
  const opened = async (node: Node | undefined, show: (workbook: Uri) => Promise<unknown>) => {
    if (node === undefined || node.kind === 'group') return;
    const { uri } = node.machine;
    await openMachine(server, { uri });
    await show(Uri.parse(uri));
  };
  return [
    commands.registerCommand(Command.openMachine, (place: MachinePlace) => openMachine(server, place)),
    commands.registerCommand(Command.machineTargets, (node?: Node) => opened(node, () => panel.show())),
    commands.registerCommand(Command.machineRecord, (node?: Node) => opened(node, (workbook) => record.show(workbook))),
    commands.registerCommand(Command.readMachines, view.readAnew),
    commands.registerCommand(Command.openExample, () => openExample(extension)),
  ];
}
