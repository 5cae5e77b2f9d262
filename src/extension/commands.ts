/** Registers the commands. */
import { commands, window, type Disposable, type LogOutputChannel, type Uri } from 'vscode';
import { addStep } from './add-step.ts';
import { done } from './begun.ts';
import { Command } from './command.ts';
import { createWorkbook } from './create/create.ts';
import type { InFront } from './in-front.ts';
import { chooseWorkbook } from './machines/choose.ts';
import { insertCell } from './notebook/append.ts';
import { nextBlank } from './notebook/blanks.ts';
import { showAsNotebook, showAsText } from './notebook/views.ts';
import { firedIn } from './practice/fire.ts';
import { levelIn, practise } from './practice/practise.ts';
import type { Panel } from './panel/panel.ts';
import type { RecordView } from './record/record.ts';
import type { Server } from './server.ts';
import { activeWorkbook } from './shown.ts';

/** What the commands act on. */
export interface Parts {
  readonly server: Server;
  readonly panel: Panel;
  readonly record: RecordView;
  readonly front: InFront;
  readonly log: LogOutputChannel;
  readonly extension: Uri;
}

export function registerCommands({ server, panel, record, front, log, extension }: Parts): Disposable[] {
  /** Where no workbook is in front, the user chooses one. */
  const inFront = async (act: (workbook: Uri) => Promise<void>) => {
    const workbook = front.workbook ?? (await chooseWorkbook(server, extension));
    if (workbook) await act(workbook);
  };
  return [
    commands.registerCommand(Command.create, create),
    commands.registerCommand(Command.addStep, () => inFront((workbook) => addStep(server, workbook))),
    commands.registerCommand(Command.insertCell, insertCell),
    commands.registerCommand(Command.nextBlank, nextBlank),
    commands.registerCommand(Command.showTargets, () =>
      inFront(async () => {
        await panel.show();
        done('hasShownTargets');
      }),
    ),
    commands.registerCommand(Command.showRecord, () =>
      inFront(async (workbook) => {
        if (await record.show(workbook)) done('hasShownRecord');
      }),
    ),
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

async function create(): Promise<void> {
  const before = window.activeTextEditor?.document;
  await createWorkbook();
  if (activeWorkbook() && window.activeTextEditor?.document !== before) done('hasCreated');
}
