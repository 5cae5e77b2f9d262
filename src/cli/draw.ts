/** Draws one figure as a picture, into a file or onto standard output. */
import { toSvg } from '../drawing/index.ts';
import {
  pathFigure,
  roundsFigure,
  screwsFigure,
  panelView,
  targetFigure,
  visitsFigure,
  type Book,
} from '../language/index.ts';
import type { Figure, ScrewsFigure, TargetFigure } from '../model/index.ts';
import type { DrawOptions } from './arguments.ts';
import { deliver } from './deliver.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import type { Files } from './files.ts';
import type { Exit, Terminal } from './terminal.ts';

/** Pixels: 10 cm on paper at 96 pixels to the inch. */
const WIDTH = 380;

export function draw(options: DrawOptions, result: Evaluated, terminal: Terminal, files: () => Files): Exit {
  const { book, inputs } = result;
  if (!book) return refused(terminal, result.findings.map((finding) => findingLine(options.file, finding)).join('\n'));
  const figure = figureOf(book, options);
  if (typeof figure === 'string') return refused(terminal, figure);
  const { out } = options;
  const svg = toSvg(figure, { width: WIDTH, theme: options.theme, behind: options.behind });
  const made = () => (out !== undefined && /\.png$/i.test(out) ? files().pngOf(svg) : { content: `${svg}\n` });
  return deliver({ made, out, inputs }, terminal, files);
}

/** The figure, or the reason why there is none. */
function figureOf(book: Book, options: DrawOptions): Figure | string {
  const { of, file } = options;
  switch (of.figure) {
    case 'station':
      return tape(book, of.name, options);
    case 'screws':
      return mount(book, of.name, file);
    case 'rounds':
      return roundsFigure(book, of.name) ?? unknownPart(book, file, of.name, 'station');
    case 'visits':
      return visitsFigure(book, of.name) ?? unknownPart(book, file, of.name, 'station');
    case 'path':
      return pathFigure(book) ?? `${file} describes no machine.`;
  }
}

function tape(book: Book, station: string, { file, round }: DrawOptions): TargetFigure | string {
  const figure = targetFigure(book, station, { round });
  if (!figure) return unknownPart(book, file, station, 'station');
  if (round === undefined || round <= figure.rounds) return figure;
  return `${station} has ${figure.rounds === 0 ? 'no round' : `${figure.rounds} ${figure.rounds === 1 ? 'round' : 'rounds'}`} in this session.`;
}

/**
 * The mount's face with the advised turns, and with what a turn does to the mark at the next station to shoot, or else
 * at the next one in the path.
 */
function mount(book: Book, part: string, file: string): ScrewsFigure | string {
  const panel = panelView(book, {});
  const behind = panel?.stations[panel.stations.findIndex(({ name }) => name === part) + 1]?.name;
  const advised = panel?.mounts.find((one) => one.part === part);
  const figure = advised ?? (behind === undefined ? undefined : screwsFigure(book, part, behind, []));
  return figure ?? unknownPart(book, file, part, 'mirror with screws');
}

function unknownPart(book: Book, file: string, name: string, what: string): string {
  const { stations } = book.evaluation();
  return stations.length === 0
    ? `${file} describes no machine.`
    : `There is no ${what} \`${name}\`: ${stations.map((one) => one.name).join(', ')}.`;
}

function refused({ error }: Terminal, reason: string): Exit {
  error(`alignbook: ${reason}\n`);
  return 2;
}
