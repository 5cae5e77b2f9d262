/** Opens a copy of an example: the file that comes with the extension stays as it is. */
import { l10n, Uri, window, workspace } from 'vscode';
import { LANGUAGE } from '../language.ts';

/** Of a machine of its own each: one that borrows its machine from another file could not find it. */
function examples() {
  return [
    { file: '1-full-service', label: l10n.t('A full service'), detail: l10n.t('Found outside, turned, released') },
    {
      file: '2-new-tube',
      label: l10n.t('A new tube'),
      detail: l10n.t('The tube is aimed first, and the path is short'),
    },
    {
      file: '3-unknown-mount',
      label: l10n.t('A mount that nobody has measured'),
      detail: l10n.t('Small trial turns show what the screws do'),
    },
  ];
}

export async function openExample(extension: Uri): Promise<void> {
  const choice = await window.showQuickPick(examples(), {
    title: l10n.t('Open an Example'),
    placeHolder: l10n.t('A copy is opened. Change it as you like.'),
    matchOnDetail: true,
  });
  if (!choice) return;
  const bytes = await workspace.fs.readFile(Uri.joinPath(extension, 'examples', `${choice.file}.alignbook.yaml`));
  const content = new TextDecoder().decode(bytes);
  await window.showTextDocument(await workspace.openTextDocument({ language: LANGUAGE, content }));
}
