/** Draws figures from plain data: as Preact components, and as SVG text. */
export { Target, type TargetProps } from './target/target.tsx';
export { Burn, type BurnProps } from './practice/burn.tsx';
export { burnScale } from './practice/scale.ts';
export { Path, type PathProps } from './path/path.tsx';
export { PathTable } from './path/table.tsx';
export { Rounds, type RoundsProps } from './rounds/rounds.tsx';
export { RoundsTable } from './rounds/table.tsx';
export { Screws, type ScrewsProps } from './screws/screws.tsx';
export { ScrewsTable } from './screws/table.tsx';
export { TargetTable } from './target/table.tsx';
export { pointInWords, targetInWords } from './target/words.ts';
export type { PixelPoint } from './outline.ts';
export { tapeScale, type OnTape, type TapeScale } from './target/scale.ts';
export { editorStyle, standaloneStyle, THEMES, type ThemeName } from './theme.ts';
export { Visits, type VisitsProps } from './visits/visits.tsx';
export { toSvg, type SvgOptions } from './to-text.tsx';
