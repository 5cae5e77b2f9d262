/** Converts text to cells and back, byte for byte. */
export type { Cell, CellCode, CellProblem, Split } from './cell.ts';
export { cellAround } from './cell-around.ts';
export { conflictsIn } from './conflicts.ts';
export { detached } from './detached.ts';
export { appendCells, joinCells, replaceCell } from './edit.ts';
export { firstAt } from './first-at.ts';
export { lineEndOf, lineIndex, type LineIndex, type Position } from './lines.ts';
export { resplit, type Edit } from './resplit.ts';
export { noteCell, noteIn } from './note.ts';
export {
  fromNotebook,
  joinNotebook,
  toNotebook,
  type CellOrigin,
  type FileOrigin,
  type NotebookCell,
  type NotebookText,
} from './notebook.ts';
export { nameInYaml, withName } from './signed.ts';
export { splitCells } from './split.ts';
