/** A station's tape as a picture, into a file or onto standard output. */
import { toSvg } from '../drawing/index.ts';
import { targetFigure } from '../language/index.ts';
import type { DrawAsked } from './arguments.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import { writePng, writeText } from './picture.ts';
import type { Exit, Terminal } from './run.ts';

/** Pixels: on a screen and, at 96 to the inch, 10 cm on paper. */
const WIDTH = 380;

export function draw(asked: DrawAsked, { book, findings }: Evaluated, terminal: Terminal): Exit {
  if (!book) return refused(terminal, findings.map((finding) => findingLine(asked.file, finding)).join('\n'));
  const stations = book.evaluation().stations.map(({ name }) => name);
  const figure = targetFigure(book, asked.station, asked.round === undefined ? {} : { round: asked.round });
  if (!figure) return refused(terminal, stations.length === 0 ? `${asked.file} describes no machine.` : `There is no station \`${asked.station}\`: ${stations.join(', ')}.`);
  if (asked.round !== undefined && asked.round > figure.rounds) return refused(terminal, `${asked.station} has ${figure.rounds === 0 ? 'no round' : `${figure.rounds} ${figure.rounds === 1 ? 'round' : 'rounds'}`} in this session.`);
  const svg = toSvg(figure, { width: WIDTH, theme: asked.theme, behind: asked.behind });
  if (asked.out === undefined) {
    terminal.out(`${svg}\n`);
    return 0;
  }
  const problem = /\.png$/i.test(asked.out) ? writePng(asked.out, svg) : writeText(asked.out, `${svg}\n`);
  return problem === undefined ? 0 : refused(terminal, problem);
}

function refused({ error }: Terminal, reason: string): Exit {
  error(`alignbook: ${reason}\n`);
  return 2;
}
