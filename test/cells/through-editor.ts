/** What the editor does to a notebook between opening and saving it. */
import { toNotebook, type NotebookCell, type NotebookText } from '../../src/cells/index.ts';

/**
 * What the editor's text model does to a cell: one line end for all, that of the most lines; a mark at the beginning is
 * gone.
 */
function normalised(cell: NotebookCell): NotebookCell {
  const text = cell.text.replace(/^\ufeff/, '');
  const [feeds, all] = [text.match(/\r\n/g)?.length ?? 0, text.match(/\r\n|\r|\n/g)?.length ?? 0];
  return { ...cell, text: text.replace(/\r\n|\r|\n/g, feeds > all / 2 ? '\r\n' : '\n') };
}

export function through(text: string): NotebookText {
  const { cells, origin } = toNotebook(text);
  // Metadata go through JSON.
  return JSON.parse(JSON.stringify({ cells: cells.map(normalised), origin })) as NotebookText;
}
