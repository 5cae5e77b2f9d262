/** Opens the workbook of a new simulated machine: of a level, with a seed of its own. */
import { l10n, window } from 'vscode';
import { untitled } from '../create/untitled.ts';
import type { Server } from '../server.ts';

/** @param level absent: it is asked for. @returns whether a workbook was opened */
export async function practise(server: Server, level?: number): Promise<boolean> {
  const chosen = level ?? (await chooseLevel());
  if (chosen === undefined) return false;
  const seed = 1 + Math.floor(Math.random() * SEEDS);
  const made = await server.request('alignbook/practise', { seed, level: chosen });
  if (!made) {
    void window.showErrorMessage(l10n.t('Practice needs the server, which is not running.'));
    return false;
  }
  await window.showTextDocument(await untitled(`practice-${chosen}-${seed}`, made.text));
  return true;
}

/** Short enough to be said aloud. */
const SEEDS = 9999;

async function chooseLevel(): Promise<number | undefined> {
  const levels = [
    [l10n.t('One mirror'), l10n.t('A worked example, cell by cell, then your turn.')],
    [l10n.t('Near and far'), l10n.t('Two mirrors: angle and offset told apart by two marks.')],
    [l10n.t('The whole path'), l10n.t('Tube, three mirrors, lens; lock nuts and plumb.')],
    [l10n.t('A mount nobody measured'), l10n.t('Another layout; the marks show what the screws do.')],
    [l10n.t('A fault or a slip'), l10n.t('A log that somebody began. Something is wrong.')],
  ];
  const choice = await window.showQuickPick(
    levels.map(([label, detail], k) => ({ label: `${k + 1}  ${label!}`, detail: detail!, level: k + 1 })),
    {
      title: l10n.t('Practise on a Simulated Machine'),
      placeHolder: l10n.t('Choose a level. Nothing here is real, and nothing can break.'),
    },
  );
  return choice?.level;
}

/** The argument of the command, as a link of the walkthrough gives it. */
export function levelIn(level: unknown): number | undefined {
  return typeof level === 'number' ? level : undefined;
}
