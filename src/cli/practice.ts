/** Practice on a simulated machine: a new workbook, the tapes of its blanks, the comparison, the closing sheet. */
import { toSvg } from '../drawing/index.ts';
import {
  burnFigureOf,
  burnsAtEnd,
  closingInWords,
  closingSheet,
  lastCompared,
  practiceAt,
  practiceWorkbook,
  type Tables,
} from '../language/index.ts';
import type { BurnFigure } from '../model/index.ts';
import { deliver } from './deliver.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import type { Files } from './files.ts';
import type { PracticeOptions } from './practice-arguments.ts';
import { closingText, comparedText, practiceHead, tapeText } from './practice-text.ts';
import type { Exit, Terminal } from './terminal.ts';

export function practice(
  options: PracticeOptions,
  evaluated: (file: string) => Evaluated,
  tables: Tables,
  terminal: Terminal,
  files: () => Files,
): Exit {
  if ('make' in options) {
    const made = () => ({ content: practiceWorkbook(tables, options.make) });
    return deliver({ made, out: options.out, inputs: [] }, terminal, files);
  }
  const result = evaluated(options.file);
  const { book } = result;
  if (!book) return refused(terminal, result.findings.map((finding) => findingLine(options.file, finding)).join('\n'));
  const simulated = practiceAt(book);
  if (!simulated)
    return refused(terminal, `${options.file} is no practice workbook: its machine cell has no \`practice\`.`);
  const head = practiceHead(simulated.simulation);
  switch (options.show) {
    case 'fire':
      return fire(options, result, head, terminal, files);
    case 'compare': {
      const marks = lastCompared(book);
      if (marks.length === 0)
        return refused(terminal, 'There is no mark to compare yet: fire, read, and write the mark.');
      terminal.out(`${head}\n\n${comparedText(book, marks)}`);
      return 0;
    }
    case 'closing': {
      const sheet = closingSheet(book, tables);
      if (!sheet)
        return refused(
          terminal,
          'There is nothing to compare yet: no marks, no limits, or a conflict that is not resolved.',
        );
      terminal.out(`${head}\n\n${closingText(closingInWords(sheet))}`);
      return 0;
    }
  }
}

/** Pixels of one tape of a picture. */
const WIDTH = 380;
const GAP = 16;

function fire(
  { out }: { readonly out?: string },
  { book, inputs }: Evaluated,
  head: string,
  terminal: Terminal,
  files: () => Files,
): Exit {
  const figures = burnsAtEnd(book!).flatMap((fired) => burnFigureOf(book!, fired) ?? []);
  if (figures.length === 0)
    return refused(terminal, 'The last cell has no blank to fire for. Append a marks cell, its marks left blank.');
  if (out === undefined) {
    terminal.out([head, ...figures.map(tapeText)].join('\n\n'));
    return 0;
  }
  const svg = sideBySide(figures);
  const made = () => (/\.png$/i.test(out) ? files().pngOf(svg) : { content: `${svg}\n` });
  return deliver({ made, out, inputs }, terminal, files);
}

/** Every tape in one picture, at one scale, its place above it. */
function sideBySide(figures: readonly BurnFigure[]): string {
  const pictures = figures.map((figure) => toSvg(figure, { width: WIDTH, theme: 'light' }));
  const height = Number(/ height="(\d+)"/.exec(pictures[0]!)![1]);
  const width = figures.length * (WIDTH + GAP) - GAP;
  const nested = pictures.map((picture, k) => picture.replace('<svg ', `<svg x="${k * (WIDTH + GAP)}" y="${NAME}" `));
  const names = figures.map(
    ({ station, place }, k) =>
      `<text x="${k * (WIDTH + GAP)}" y="14" font-family="sans-serif" font-size="12" fill="#1b2a33">PRACTICE, ${escaped([station, place].filter(Boolean).join(', '))}</text>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height + NAME}" viewBox="0 0 ${width} ${height + NAME}"><rect width="${width}" height="${height + NAME}" fill="#fbf8f1"/>${names.join('')}${nested.join('')}</svg>`;
}

/** Pixels for the name of a tape. */
const NAME = 20;

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
}

function refused({ error }: Terminal, reason: string): Exit {
  error(`alignbook: ${reason}\n`);
  return 2;
}
