/** Parses the command line into the command and its options, or the reason why it is wrong. */
import { parseArgs } from 'node:util';

import type { ThemeName } from '../drawing/index.ts';
import type { PaperSize } from '../record/index.ts';
import { practiceInvocation, type PracticeOptions } from './practice-arguments.ts';

/** The name of standard input and output. */
export const STANDARD_OUTPUT = '-';

export type Command = 'check' | 'next' | 'care' | 'sessions' | 'light' | 'schema';

/** The figures of `draw`, each an option: of a named element of the path, or of the whole machine. */
export const FIGURES = {
  station: { type: 'string' },
  screws: { type: 'string' },
  rounds: { type: 'string' },
  visits: { type: 'string' },
  path: { type: 'boolean' },
} as const;

type FigureName = keyof typeof FIGURES;

/** What `draw` draws: a station's tape, the screws of a mirror, a station's rounds or visits, or the beam path. */
export type Drawn = {
  [F in FigureName]: (typeof FIGURES)[F]['type'] extends 'string'
    ? { readonly figure: F; readonly name: string }
    : { readonly figure: F };
}[FigureName];

export interface DrawOptions {
  readonly command: 'draw';
  readonly file: string;
  readonly of: Drawn;
  /** Absent or `-`: standard output, as SVG. */
  readonly out?: string;
  readonly round?: number;
  readonly behind: boolean;
  readonly theme: ThemeName;
}

export interface ReportOptions {
  readonly command: 'report';
  readonly file: string;
  readonly as: 'html' | 'markdown' | 'pdf';
  /** Absent or `-`: standard output. A PDF needs it. */
  readonly out?: string;
  /** For a PDF. */
  readonly paper?: PaperSize;
  /** From 1; absent: the last visit. */
  readonly visit?: number;
}

export type Invocation =
  | DrawOptions
  | ReportOptions
  | PracticeOptions
  | { readonly command: Command; readonly files: readonly string[]; readonly json: boolean }
  | { readonly command: 'help' | 'version' }
  | { readonly command: 'wrong'; readonly reason: string };

export const USAGE = `alignbook COMMAND FILE…

  check FILE…    list findings in the workbooks, as FILE:LINE:COL severity code message
  next FILE…     show what the marks mean, what to do now, and why
  care FILE…     list what was found and done to each part, when it is due, and the power
  sessions FILE… show each station as found and as left, visit by visit, the drift in
                 between, and when it will be out of limits
  light FILE…    print the beam diameter and loss at each aperture, the spot, eyewear
  draw FILE      draw a station's tape (--station M2), a mirror's screws
                 (--screws M1), a station's rounds (--rounds M2) and its
                 visits (--visits M2), or the beam path (--path);
                 --out t.svg|t.png
  report FILE    write the record of the last visit, to print and keep: --out R.html, or
                 --markdown, or --pdf --out R.pdf; of another visit with --visit 2
  practice       write the workbook of a simulated machine: --seed 7 --level 1 to 5
                 --out p.alignbook.yaml; then print the burnt tapes of its blank
                 marks with --fire FILE, what came of them with --compare FILE, and
                 at the end your way beside the shortest with --closing FILE
  schema         print the JSON Schema of the format, for other editors
  server --stdio run the language server, for any editor with the Language Server Protocol

  --json         one line of JSON per file (check, next, care, sessions,
                 light)
  --round 2      an earlier round of the session (draw)
  --behind       view from behind, looking against the beam (draw)
  --theme dark   light, dark or contrast (draw)
  --paper letter A4 or letter, of a PDF (report; default A4)
  --visit 2      which visit, as sessions counts them from 1 (report)
  --help, --version

- as FILE reads standard input, --out - writes standard output. A file that
--out names is written whole or stays as it was. Exit of check: 0 no errors, 1
errors, 2 bad usage or an unreadable file. Exit of next, care, sessions and
light: 0 when every file could be read, else 2. Exit of draw and report: 0
done, else 2. A .png and a .pdf are made by an installed Chromium.
`;

const TAKES_FILES = new Set<string>(['check', 'next', 'care', 'sessions', 'light']);

const OPTIONS = {
  json: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
  ...FIGURES,
  out: { type: 'string' },
  round: { type: 'string' },
  behind: { type: 'boolean' },
  theme: { type: 'string' },
  markdown: { type: 'boolean' },
  pdf: { type: 'boolean' },
  paper: { type: 'string' },
  visit: { type: 'string' },
  seed: { type: 'string' },
  level: { type: 'string' },
  fire: { type: 'boolean' },
  compare: { type: 'boolean' },
  closing: { type: 'boolean' },
} as const;

/** Options that only some commands take. */
const TAKES: Readonly<Record<string, ReadonlySet<string>>> = {
  draw: new Set([...Object.keys(FIGURES), 'out', 'round', 'behind', 'theme']),
  report: new Set(['out', 'markdown', 'pdf', 'paper', 'visit']),
  practice: new Set(['seed', 'level', 'fire', 'compare', 'closing', 'out']),
};
const OTHERS: ReadonlySet<string> = new Set(['json']);

export function readArguments(typed: readonly string[]): Invocation {
  try {
    const { values, positionals } = parseArgs({
      args: [...typed],
      allowPositionals: true,
      options: OPTIONS,
    });
    if (values.help) return { command: 'help' };
    if (values.version) return { command: 'version' };
    const [command, ...files] = positionals;
    const foreign = Object.keys(values).find(
      (option) =>
        !((command !== undefined && Object.hasOwn(TAKES, command) ? TAKES[command] : undefined) ?? OTHERS).has(option),
    );
    if (foreign !== undefined) return { command: 'wrong', reason: `\`${command ?? ''}\` takes no \`--${foreign}\`.` };
    if (command === 'practice') return practiceInvocation(files, values);
    if (command === 'report') return reportInvocation(files, values);
    return command === 'draw' ? drawInvocation(files, values) : filesInvocation(positionals, values.json ?? false);
  } catch (problem) {
    return { command: 'wrong', reason: problem instanceof Error ? problem.message : String(problem) };
  }
}

function filesInvocation([command, ...files]: readonly string[], json: boolean): Invocation {
  if (command === undefined) return { command: 'wrong', reason: 'No command.' };
  if (command === 'schema')
    return files.length === 0 ? { command, files, json } : { command: 'wrong', reason: '`schema` takes no files.' };
  if (!TAKES_FILES.has(command)) return { command: 'wrong', reason: `There is no command \`${command}\`.` };
  if (files.length === 0)
    return { command: 'wrong', reason: `\`${command}\` needs a workbook, or - for standard input.` };
  return { command: command as Command, files, json };
}

interface ReportValues {
  readonly out?: string | undefined;
  readonly markdown?: boolean | undefined;
  readonly pdf?: boolean | undefined;
  readonly paper?: string | undefined;
  readonly visit?: string | undefined;
}

function reportInvocation(
  files: readonly string[],
  { out, markdown = false, pdf = false, paper, visit }: ReportValues,
): Invocation {
  const wrong = (reason: string): Invocation => ({ command: 'wrong', reason });
  const [file] = files;
  if (file === undefined || files.length > 1) return wrong('`report` needs one workbook, or - for standard input.');
  if (markdown && pdf) return wrong('`--markdown` and `--pdf` exclude each other.');
  if (pdf && out === undefined) return wrong('`--pdf` needs `--out`, the name of a file, or - for standard output.');
  if (paper !== undefined && !pdf) return wrong('`--paper` needs `--pdf`.');
  const size = PAPERS.find((one) => one.toLowerCase() === (paper ?? 'A4').toLowerCase());
  if (!size) return wrong(`There is no paper \`${paper}\`: ${PAPERS.join(' or ')}.`);
  if (visit !== undefined && !/^[1-9]\d{0,8}$/.test(visit))
    return wrong(`\`--visit ${visit}\` is not a visit: visits are counted from 1.`);
  // It would overwrite the workbook.
  if (out !== undefined && /\.ya?ml$/i.test(out)) return wrong(`\`${out}\` is the name of a workbook.`);
  return {
    command: 'report',
    file,
    as: pdf ? 'pdf' : markdown ? 'markdown' : 'html',
    ...(out !== undefined && { out }),
    ...(pdf && { paper: size }),
    ...(visit !== undefined && { visit: Number(visit) }),
  };
}

const PAPERS: readonly PaperSize[] = ['A4', 'letter'];

interface DrawValues extends Readonly<Partial<Record<FigureName, string | boolean | undefined>>> {
  readonly out?: string | undefined;
  readonly round?: string | undefined;
  readonly behind?: boolean | undefined;
  readonly theme?: string | undefined;
}

function drawInvocation(
  files: readonly string[],
  { out, round, behind = false, theme = 'light', ...figures }: DrawValues,
): Invocation {
  const wrong = (reason: string): Invocation => ({ command: 'wrong', reason });
  const [file] = files;
  if (file === undefined || files.length > 1) return wrong('`draw` needs one workbook, or - for standard input.');
  const of = drawnOf(figures);
  if (!of)
    return wrong(
      '`draw` needs one of `--station`, `--rounds` or `--visits` with the name of an element of the path, `--screws` with the name of a mirror, and `--path`.',
    );
  if (of.figure !== 'station' && (round !== undefined || behind))
    return wrong('`--round` and `--behind` need `--station`.');
  if (out !== undefined && out !== STANDARD_OUTPUT && !/\.(svg|png)$/i.test(out))
    return wrong(`\`${out}\` is not a .svg or .png file.`);
  if (round !== undefined && !/^[1-9]\d{0,3}$/.test(round))
    return wrong(`\`${round}\` is not a round: rounds of a session are counted from 1.`);
  if (!isTheme(theme)) return wrong(`There is no theme \`${theme}\`: light, dark or contrast.`);
  return {
    command: 'draw',
    file,
    of,
    behind,
    theme,
    ...(out !== undefined && { out }),
    ...(round !== undefined && { round: Number(round) }),
  };
}

/** Undefined unless exactly one figure is given. */
function drawnOf(values: Pick<DrawValues, FigureName>): Drawn | undefined {
  const [figure, another] = (Object.keys(FIGURES) as FigureName[]).filter((one) => values[one] !== undefined);
  if (figure === undefined || another !== undefined) return undefined;
  // The type of the option in `FIGURES` is the type of its value.
  return { figure, name: values[figure] } as Drawn;
}

function isTheme(word: string): word is ThemeName {
  return word === 'light' || word === 'dark' || word === 'contrast';
}
