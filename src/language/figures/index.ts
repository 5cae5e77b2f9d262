/** What the figures of a workbook show, as plain data. */
export { targetFigure, type TargetAsked } from './target.ts';
export { cellSheet } from './cell-sheet.ts';
export { sheetOf } from './sheet.ts';
export { screwsFigure } from './screws.ts';
export { roundsFigure } from './rounds.ts';
export { pathFigure } from './path.ts';
export { visitsFigure } from './visits.ts';
