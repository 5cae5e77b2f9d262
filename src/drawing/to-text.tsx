/** A figure as the text of a standalone SVG picture: with its own colours, without script or links. */
import { renderToString } from 'preact-render-to-string';
import { harmlessLines, type Figure } from '../model/index.ts';
import { Path } from './path/path.tsx';
import { Burn } from './practice/burn.tsx';
import { Rounds } from './rounds/rounds.tsx';
import { Screws } from './screws/screws.tsx';
import type { TapeWindow } from './target/scale.ts';
import { Target } from './target/target.tsx';
import { standaloneStyle, type ThemeName } from './theme.ts';
import { Visits } from './visits/visits.tsx';

/** Size and appearance of an SVG picture. */
export interface SvgOptions {
  /** Pixels. */
  readonly width: number;
  readonly theme: ThemeName;
  readonly behind?: boolean;
  readonly legend?: 'below' | 'beside';
  /** The part of a tape that is drawn. */
  readonly window?: TapeWindow;
}

/** The SVG text of a figure. Control characters in names are escaped. */
export function toSvg(figure: Figure, options: SvgOptions): string {
  return harmlessLines(renderToString(drawn(figure, options)));
}

function drawn(figure: Figure, { theme, width, ...options }: SvgOptions) {
  const style = standaloneStyle(theme);
  switch (figure.kind) {
    case 'target':
      return <Target figure={figure} width={width} style={style} {...options} />;
    case 'screws':
      return <Screws figure={figure} width={width} style={style} />;
    case 'rounds':
      return <Rounds figure={figure} width={width} style={style} />;
    case 'visits':
      return <Visits figure={figure} width={width} style={style} />;
    case 'burn':
      return <Burn figure={figure} width={width} style={style} behind={options.behind === true} />;
    case 'path':
      return <Path figure={figure} width={width} style={style} />;
  }
}
