/** A figure as the text of an SVG picture that stands alone: its own colours, no script, no address. */
import { renderToString } from 'preact-render-to-string';
import type { TargetFigure } from '../model/index.ts';
import { Target } from './target/target.tsx';
import { standaloneStyle, type ThemeName } from './theme.ts';

export interface Sheet {
  /** Pixels. */
  readonly width: number;
  readonly theme: ThemeName;
  readonly behind?: boolean;
  readonly legend?: 'below' | 'beside';
}

export function toSvg(figure: TargetFigure, { theme, ...sheet }: Sheet): string {
  return renderToString(<Target figure={figure} style={standaloneStyle(theme)} {...sheet} />);
}
