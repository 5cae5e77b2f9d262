/** Registers the commands. */
import { commands, type Disposable, type LogOutputChannel } from 'vscode';
import { addStep } from './add-step.ts';
import { Command } from './command.ts';
import { createWorkbook } from './create/create.ts';
import { showAsNotebook, showAsText } from './notebook/views.ts';
import { firedIn } from './practice/fire.ts';
import { levelIn, practise } from './practice/practise.ts';
import type { Panel } from './panel/panel.ts';
import type { RecordView } from './record/record.ts';
import type { Server } from './server.ts';
import { activeWorkbook } from './shown.ts';

export function registerCommands(
  server: Server,
  panel: Panel,
  record: RecordView,
  log: LogOutputChannel,
): Disposable[] {
  return [
    commands.registerCommand(Command.create, createWorkbook),
    commands.registerCommand(Command.addStep, () => addStep(server, activeWorkbook())),
    commands.registerCommand(Command.showTargets, () => panel.show()),
    commands.registerCommand(Command.showRecord, () => record.show()),
    commands.registerCommand(Command.saveRecord, () => record.save()),
    commands.registerCommand(Command.showAsNotebook, showAsNotebook),
    commands.registerCommand(Command.showAsText, showAsText),
    commands.registerCommand(Command.practise, (level?: unknown) => practise(server, levelIn(level))),
    commands.registerCommand(Command.fire, (uri: unknown, place: unknown) => panel.fire(firedIn(uri, place))),
    commands.registerCommand(Command.showAdvice, () => panel.askAdvice()),
    commands.registerCommand(Command.restart, () => server.restart()),
    commands.registerCommand(Command.showLog, () => log.show()),
  ];
}
