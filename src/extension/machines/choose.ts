/** A command about a workbook, while none is in front: the user chooses one, or begins one. */
import { l10n, QuickPickItemKind, window, type QuickPickItem, type Uri } from 'vscode';
import { inGroups, namesOf } from '../../model/index.ts';
import { createWorkbook } from '../create/create.ts';
import type { Server } from '../server.ts';
import { activeWorkbook } from '../shown.ts';
import { openExample } from './examples.ts';
import { openMachine } from './open.ts';
import { today } from '../today.ts';

interface Way extends QuickPickItem {
  open?(): Promise<void>;
}

/** The workbook that is in front afterwards; undefined: the user cancelled. */
export async function chooseWorkbook(server: Server, extension: Uri): Promise<Uri | undefined> {
  const choice = await window.showQuickPick<Way>(ways(server, extension), {
    title: l10n.t('No workbook is in front'),
    placeHolder: l10n.t('Choose a workbook, or begin one.'),
    matchOnDescription: true,
  });
  if (!choice?.open) return undefined;
  await choice.open();
  return activeWorkbook();
}

async function ways(server: Server, extension: Uri): Promise<Way[]> {
  const list = await server.request('alignbook/machines', { today: today() }).catch(() => undefined);
  const machines = inGroups(list?.machines ?? []).flatMap((group) => group.machines);
  const names = namesOf(machines);
  return [
    ...machines.map((machine) => ({
      label: names.get(machine) ?? '',
      description: machine.says,
      open: () => openMachine(server, { uri: machine.uri }),
    })),
    ...(machines.length > 0 ? [{ label: '', kind: QuickPickItemKind.Separator }] : []),
    { label: l10n.t('Create a Workbook…'), open: () => createWorkbook() },
    { label: l10n.t('Open an Example…'), open: () => openExample(extension) },
  ];
}
