/** Converts a workbook's bytes to the editor's notebook and back. Text between the cells is stored in metadata. */
import { l10n, NotebookCellData, NotebookCellKind, NotebookData, type NotebookSerializer } from 'vscode';
import { fromNotebook, toNotebook, type CellOrigin, type FileOrigin } from '../../cells/index.ts';
import { LANGUAGE } from '../language.ts';
import { sheetsFor } from './sheets.ts';

const EMPTY: FileOrigin = { head: '', tail: '', count: 0, end: '\n' };

export const serializer: NotebookSerializer = {
  deserializeNotebook(content) {
    const { cells, origin } = toNotebook(decoded(content));
    const data = new NotebookData(
      cells.map(({ kind, text, origin: own }) => {
        const cell =
          kind === 'note'
            ? new NotebookCellData(NotebookCellKind.Markup, text, 'markdown')
            : new NotebookCellData(NotebookCellKind.Code, text, LANGUAGE);
        if (own) cell.metadata = { origin: own };
        if (kind === 'cell') cell.outputs = sheetsFor(text);
        return cell;
      }),
    );
    data.metadata = { origin };
    return data;
  },

  serializeNotebook({ cells, metadata }) {
    const text = fromNotebook({
      cells: cells.map(({ kind, value, metadata: own }) => ({
        kind: kind === NotebookCellKind.Markup ? 'note' : 'cell',
        text: value,
        origin: own?.['origin'] as CellOrigin | undefined,
      })),
      origin: (metadata?.['origin'] as FileOrigin | undefined) ?? EMPTY,
    });
    return new TextEncoder().encode(text);
  },
};

/** A file that is not UTF-8 is not opened: saving would change its bytes. */
function decoded(content: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(content);
  } catch {
    throw new Error(
      l10n.t('This file is not UTF-8 text, so it cannot be shown as a notebook without loss. Open it as text.'),
    );
  }
}
