/** The figures of a workbook, as plain data. */
export { targetFigure, type TargetOptions } from './target.ts';
export { panelView } from './panel-view.ts';
export { screwsFigure } from './screws.ts';
export { roundsFigure } from './rounds.ts';
export { pathFigure } from './path.ts';
export { visitsFigure } from './visits.ts';
