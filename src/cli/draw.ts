/** One of the figures as a picture, into a file or onto standard output. */
import { toSvg, type Figure } from '../drawing/index.ts';
import {
  pathFigure,
  roundsFigure,
  screwsFigure,
  sheetOf,
  targetFigure,
  visitsFigure,
  type Book,
} from '../language/index.ts';
import type { ScrewsFigure, TargetFigure } from '../model/index.ts';
import type { DrawAsked } from './arguments.ts';
import { deliver } from './deliver.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import type { Files } from './files.ts';
import type { Exit, Terminal } from './terminal.ts';

/** Pixels: on a screen and, at 96 to the inch, 10 cm on paper. */
const WIDTH = 380;

export function draw(asked: DrawAsked, result: Evaluated, terminal: Terminal, files: () => Files): Exit {
  const { book, inputs } = result;
  if (!book) return refused(terminal, result.findings.map((finding) => findingLine(asked.file, finding)).join('\n'));
  const figure = figureOf(book, asked);
  if (typeof figure === 'string') return refused(terminal, figure);
  const { out } = asked;
  const svg = toSvg(figure, { width: WIDTH, theme: asked.theme, behind: asked.behind });
  const made = () => (out !== undefined && /\.png$/i.test(out) ? files().pngOf(svg) : { content: `${svg}\n` });
  return deliver({ made, out, inputs }, terminal, files);
}

/** The figure, or why there is none. */
function figureOf(book: Book, asked: DrawAsked): Figure | string {
  const { of, file } = asked;
  if ('station' in of) return tape(book, of.station, asked);
  if ('screws' in of) return mount(book, of.screws, file);
  if ('path' in of) return pathFigure(book) ?? `${file} describes no machine.`;
  if ('visits' in of) return visitsFigure(book, of.visits) ?? unknownPart(book, file, of.visits, 'station');
  return roundsFigure(book, of.rounds) ?? unknownPart(book, file, of.rounds, 'station');
}

function tape(book: Book, station: string, { file, round }: DrawAsked): TargetFigure | string {
  const figure = targetFigure(book, station, { round });
  if (!figure) return unknownPart(book, file, station, 'station');
  if (round === undefined || round <= figure.rounds) return figure;
  return `${station} has ${figure.rounds === 0 ? 'no round' : `${figure.rounds} ${figure.rounds === 1 ? 'round' : 'rounds'}`} in this session.`;
}

/** With what is advised, and what a turn does to the mark on the station that is shot next, or else on the one behind. */
function mount(book: Book, part: string, file: string): ScrewsFigure | string {
  const sheet = sheetOf(book, {});
  const behind = sheet?.stations[sheet.stations.findIndex(({ name }) => name === part) + 1]?.name;
  const advised = sheet?.mounts.find((one) => one.part === part);
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
