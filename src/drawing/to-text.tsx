/** A figure as the text of an SVG picture that stands alone: its own colours, no script, no address. */
import { renderToString } from 'preact-render-to-string';
import type { ScrewsFigure, TargetFigure } from '../model/index.ts';
import { Screws } from './screws/screws.tsx';
import { Target } from './target/target.tsx';
import { standaloneStyle, type ThemeName } from './theme.ts';

export interface Sheet {
  /** Pixels. */
  readonly width: number;
  readonly theme: ThemeName;
  readonly behind?: boolean;
  readonly legend?: 'below' | 'beside';
}

export function toSvg(figure: TargetFigure | ScrewsFigure, { theme, width, ...sheet }: Sheet): string {
  const style = standaloneStyle(theme);
  return renderToString(figure.kind === 'target' ? <Target figure={figure} width={width} style={style} {...sheet} /> : <Screws figure={figure} width={width} style={style} />);
}
