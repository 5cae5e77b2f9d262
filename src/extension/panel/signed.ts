/** What is signed is never overwritten: a mark goes into a new visit, or is amended, or nothing is written. */
import { l10n, window } from 'vscode';
import type { Requests, Signature } from '../../model/index.ts';
import { today } from '../today.ts';
import { nameSetting } from '../settings.ts';

/** How the mark is written instead; undefined if it is not. */
type Instead = Pick<Requests['alignbook/placeMark']['params'], 'anew' | 'amend'>;

export async function insteadOfSigned({ by, date }: Signature): Promise<Instead | undefined> {
  const signed =
    by && date ? l10n.t('signed by {0} on {1}', by, date) : by ? l10n.t('signed by {0}', by) : l10n.t('signed off');
  const [newVisit, amend] = [l10n.t('New Visit'), l10n.t('Amend…')];
  const choice = await window.showWarningMessage(
    l10n.t('This mark belongs to a visit that was {0}.', signed),
    {
      modal: true,
      detail: l10n.t(
        'Log the mark in a new visit, or amend the signed one: the mark is corrected, and what it was is kept and printed in the record.',
      ),
    },
    newVisit,
    amend,
  );
  if (choice === newVisit) return { anew: true };
  return choice === amend ? amendment() : undefined;
}

/** Who corrects it, when, and why; undefined if the user does not say. */
async function amendment(): Promise<Instead | undefined> {
  const by = nameSetting() || (await answerTo(l10n.t('Your name, as it shall stand in the record')));
  const reason = by === undefined ? undefined : await answerTo(l10n.t('Why it is corrected'));
  return by === undefined || reason === undefined ? undefined : { amend: { date: today(), by, reason } };
}

async function answerTo(prompt: string): Promise<string | undefined> {
  const answer = await window.showInputBox({
    title: l10n.t('Amend'),
    prompt,
    ignoreFocusOut: true,
    validateInput: (text) => (text.trim() === '' ? l10n.t('Write a few words.') : undefined),
  });
  return answer?.trim() || undefined;
}
