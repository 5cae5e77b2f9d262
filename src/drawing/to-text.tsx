/** A figure as the text of an SVG picture that stands alone: its own colours, no script, no address. */
import { renderToString } from 'preact-render-to-string';
import { harmlessLines } from '../model/index.ts';
import type { PathFigure, RoundsFigure, ScrewsFigure, TargetFigure, VisitsFigure } from '../model/index.ts';
import { Path } from './path/path.tsx';
import { Rounds } from './rounds/rounds.tsx';
import { Screws } from './screws/screws.tsx';
import { Target } from './target/target.tsx';
import { standaloneStyle, type ThemeName } from './theme.ts';
import { Visits } from './visits/visits.tsx';

export interface Sheet {
  /** Pixels. */
  readonly width: number;
  readonly theme: ThemeName;
  readonly behind?: boolean;
  readonly legend?: 'below' | 'beside';
}

export function toSvg(figure: Figure, sheet: Sheet): string {
  return harmlessLines(renderToString(drawn(figure, sheet)));
}

export type Figure = TargetFigure | ScrewsFigure | RoundsFigure | PathFigure | VisitsFigure;

function drawn(figure: Figure, { theme, width, ...sheet }: Sheet) {
  const style = standaloneStyle(theme);
  switch (figure.kind) {
    case 'target':
      return <Target figure={figure} width={width} style={style} {...sheet} />;
    case 'screws':
      return <Screws figure={figure} width={width} style={style} />;
    case 'rounds':
      return <Rounds figure={figure} width={width} style={style} />;
    case 'visits':
      return <Visits figure={figure} width={width} style={style} />;
    case 'path':
      return <Path figure={figure} width={width} style={style} />;
  }
}
