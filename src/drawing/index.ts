/** Model → figures, as components without a document, and as the text of pictures. */
export { Target, type TargetProps } from './target/target.tsx';
export { TargetTable } from './target/table.tsx';
export { pointInWords, targetInWords } from './target/words.ts';
export { tapeScale, type OnTape, type Spot, type TapeScale } from './target/scale.ts';
export { editorStyle, THEMES, type ThemeName } from './theme.ts';
export { toSvg, type Sheet } from './to-text.tsx';
