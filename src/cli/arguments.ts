/** Parses the command line into the command and its options, or the reason why it is wrong. */
import { parseArgs } from 'node:util';

import type { ThemeName } from '../drawing/index.ts';
import { ANSWERS, type AnswerName } from '../create/index.ts';
import { lookup } from '../model/index.ts';
import type { PaperSize } from '../record/index.ts';
import { practiceInvocation, type PracticeOptions } from './practice-arguments.ts';

/** The name of standard input and output. */
export const STANDARD_OUTPUT = '-';

/** Commands about any number of workbooks. */
export type Command = 'next' | 'care' | 'sessions' | 'light';

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

export interface FilesOptions {
  readonly command: Command;
  readonly files: readonly string[];
  readonly json: boolean;
  /** For a small screen. */
  readonly brief: boolean;
}

/** What makes `check` exit with 1, beside errors. */
const FAILURES = ['warnings', 'released-outside'] as const;
export type Failure = (typeof FAILURES)[number];

export interface CheckOptions {
  readonly command: 'check';
  readonly files: readonly string[];
  readonly as: 'text' | 'json' | 'sarif' | 'github';
  readonly failOn: readonly Failure[];
  /** A revision of git: what has not changed since is left out. */
  readonly changedSince?: string;
  /** Where standard input stands, for messages and files that it takes machines from. */
  readonly stdinName?: string;
}

export interface FormatOptions {
  readonly command: 'format';
  readonly files: readonly string[];
  /** `check` names the files that `write` would change. */
  readonly mode: 'check' | 'write';
}

export interface NewOptions {
  readonly command: 'new';
  readonly file: string;
  /** Answers as typed. */
  readonly given: Readonly<Partial<Record<AnswerName, string>>>;
}

export interface AddOptions {
  readonly command: 'add';
  readonly file: string;
  /** Steps without marks are done. */
  readonly yes: boolean;
  /** Marks as typed, by the number or the stop of their tape. */
  readonly marks: ReadonlyMap<string, string>;
  /** Who signs off. */
  readonly by?: string;
}

export type Invocation =
  | DrawOptions
  | ReportOptions
  | PracticeOptions
  | FilesOptions
  | CheckOptions
  | FormatOptions
  | NewOptions
  | AddOptions
  | { readonly command: 'explain'; readonly code: string }
  | { readonly command: 'help' | 'version' | 'schema' }
  | { readonly command: 'wrong'; readonly reason: string };

/** Commands that ask. */
export type Asking = NewOptions | AddOptions;

export function isAsking(invocation: Invocation): invocation is Asking {
  return invocation.command === 'new' || invocation.command === 'add';
}

const OPTIONS = {
  json: { type: 'boolean' },
  brief: { type: 'boolean' },
  sarif: { type: 'boolean' },
  github: { type: 'boolean' },
  'fail-on': { type: 'string' },
  'changed-since': { type: 'string' },
  'stdin-name': { type: 'string' },
  check: { type: 'boolean' },
  write: { type: 'boolean' },
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
  yes: { type: 'boolean' },
  mark: { type: 'string', multiple: true },
  by: { type: 'string' },
  seed: { type: 'string' },
  level: { type: 'string' },
  fire: { type: 'boolean' },
  compare: { type: 'boolean' },
  closing: { type: 'boolean' },
  ...optionsOf(ANSWERS),
} as const;

function optionsOf<N extends string>(names: readonly N[]) {
  return Object.fromEntries(names.map((name) => [name, { type: 'string' }])) as Record<N, { readonly type: 'string' }>;
}

type Values = ReturnType<typeof parseArgs<{ options: typeof OPTIONS }>>['values'];

/** How a command is read: the options that it takes, and what they and its other words say. */
interface Reader {
  readonly options: readonly (keyof typeof OPTIONS)[];
  read(words: readonly string[], values: Values): Invocation;
}

const files = (command: Command, options: Reader['options'] = ['json']): Reader => ({
  options,
  read: (words, values) => filesInvocation(command, words, values),
});

/** Every command by its name. */
const READERS: Readonly<Record<string, Reader>> = {
  check: {
    options: ['json', 'sarif', 'github', 'fail-on', 'changed-since', 'stdin-name'],
    read: checkInvocation,
  },
  next: files('next', ['json', 'brief']),
  care: files('care'),
  sessions: files('sessions'),
  light: files('light'),
  format: { options: ['check', 'write'], read: formatInvocation },
  schema: { options: ['json'], read: schemaInvocation },
  explain: { options: [], read: explainInvocation },
  new: { options: ANSWERS, read: newInvocation },
  add: { options: ['yes', 'mark', 'by'], read: addInvocation },
  practice: { options: ['seed', 'level', 'fire', 'compare', 'closing', 'out'], read: practiceInvocation },
  draw: {
    options: [...(Object.keys(FIGURES) as FigureName[]), 'out', 'round', 'behind', 'theme'],
    read: drawInvocation,
  },
  report: { options: ['out', 'markdown', 'pdf', 'paper', 'visit'], read: reportInvocation },
};

export function readArguments(typed: readonly string[]): Invocation {
  try {
    const { values, positionals } = parseArgs({ args: [...typed], allowPositionals: true, options: OPTIONS });
    if (values.help) return { command: 'help' };
    if (values.version) return { command: 'version' };
    const [command, ...words] = positionals;
    if (command === undefined) return wrong('No command.');
    const reader = lookup(READERS, command);
    if (!reader) return wrong(`There is no command \`${command}\`.`);
    const foreign = Object.keys(values).find((option) => !reader.options.some((own) => own === option));
    return foreign === undefined ? reader.read(words, values) : wrong(`\`${command}\` takes no \`--${foreign}\`.`);
  } catch (problem) {
    return wrong(problem instanceof Error ? problem.message : String(problem));
  }
}

function wrong(reason: string): Invocation {
  return { command: 'wrong', reason };
}

function filesInvocation(command: Command, words: readonly string[], { json = false, brief = false }: Values) {
  if (words.length === 0) return wrong(`\`${command}\` needs a workbook, or - for standard input.`);
  return json && brief
    ? wrong('`--json` and `--brief` exclude each other.')
    : ({ command, files: words, json, brief } as const);
}

function checkInvocation(
  files: readonly string[],
  {
    json = false,
    sarif = false,
    github = false,
    'fail-on': named = '',
    'changed-since': changedSince,
    'stdin-name': stdinName,
  }: Values,
): Invocation {
  if (files.length === 0) return wrong('`check` needs a workbook, or - for standard input.');
  if ([json, sarif, github].filter(Boolean).length > 1)
    return wrong('`--json`, `--sarif` and `--github` exclude each other.');
  const failOn = named.split(',').filter((word) => word !== '');
  const foreign = failOn.find((word) => !isFailure(word));
  if (foreign !== undefined) return wrong(`There is no \`--fail-on ${foreign}\`: ${FAILURES.join(', ')}.`);
  if (stdinName !== undefined && !files.includes(STANDARD_OUTPUT))
    return wrong('`--stdin-name` needs - for standard input.');
  return {
    command: 'check',
    files,
    as: json ? 'json' : sarif ? 'sarif' : github ? 'github' : 'text',
    failOn: failOn.filter(isFailure),
    ...(changedSince !== undefined && { changedSince }),
    ...(stdinName !== undefined && { stdinName }),
  };
}

function isFailure(word: string): word is Failure {
  return FAILURES.some((one) => one === word);
}

function formatInvocation(words: readonly string[], { check = false, write = false }: Values): Invocation {
  if (words.length === 0) return wrong('`format` needs a workbook, or - for standard input.');
  if (check === write) return wrong('`format` needs either `--check` or `--write`.');
  return { command: 'format', files: words, mode: check ? 'check' : 'write' };
}

function schemaInvocation(words: readonly string[]): Invocation {
  return words.length === 0 ? { command: 'schema' } : wrong('`schema` takes no files.');
}

function explainInvocation([code, ...others]: readonly string[]): Invocation {
  return code === undefined || others.length > 0
    ? wrong('`explain` needs one code, such as `mark.outside`.')
    : { command: 'explain', code };
}

function newInvocation([file, ...others]: readonly string[], given: Values): Invocation {
  if (file === undefined || others.length > 0) return wrong('`new` needs the name of one file.');
  if (file === STANDARD_OUTPUT) return wrong('`new` needs the name of a file.');
  return { command: 'new', file, given };
}

function addInvocation([file, ...others]: readonly string[], { yes = false, mark = [], by }: Values): Invocation {
  if (file === undefined || others.length > 0 || file === STANDARD_OUTPUT) return wrong('`add` needs one workbook.');
  const marks = mark.map((text) => /^\s*([^=]+?)\s*=(.*)$/s.exec(text));
  const wrongly = mark.find((_, k) => !marks[k]);
  if (wrongly !== undefined) return wrong(`\`--mark ${wrongly}\` is not such as \`--mark near="2r 4d"\`.`);
  const names = marks.map((one) => one![1]!);
  const twice = names.find((one, k) => names.indexOf(one) !== k);
  if (twice !== undefined) return wrong(`\`--mark ${twice}=…\` stands twice: one mark a tape.`);
  return {
    command: 'add',
    file,
    yes,
    marks: new Map(marks.map((one) => [one![1]!, one![2]!])),
    ...(by !== undefined && { by }),
  };
}

function reportInvocation(
  [file, ...others]: readonly string[],
  { out, markdown = false, pdf = false, paper, visit }: Values,
): Invocation {
  if (file === undefined || others.length > 0) return wrong('`report` needs one workbook, or - for standard input.');
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

function drawInvocation(
  [file, ...others]: readonly string[],
  { out, round, behind = false, theme = 'light', ...figures }: Values,
): Invocation {
  if (file === undefined || others.length > 0) return wrong('`draw` needs one workbook, or - for standard input.');
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
function drawnOf(values: Pick<Values, FigureName>): Drawn | undefined {
  const [figure, another] = (Object.keys(FIGURES) as FigureName[]).filter((one) => values[one] !== undefined);
  if (figure === undefined || another !== undefined) return undefined;
  // The type of the option in `FIGURES` is the type of its value.
  return { figure, name: values[figure] } as Drawn;
}

function isTheme(word: string): word is ThemeName {
  return word === 'light' || word === 'dark' || word === 'contrast';
}
