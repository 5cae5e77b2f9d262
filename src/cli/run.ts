/** The commands: what is printed, and the exit code. Nothing here computes; it reads, asks and shows. */
import { workbookSchema } from '../workbook/index.ts';
import { readArguments, USAGE, type Asked } from './arguments.ts';
import { draw } from './draw.ts';
import type { Evaluated } from './evaluated.ts';
import { STANDARD_INPUT } from '../disk/index.ts';
import { machineAt, unitsOf, wavelengthOf } from '../language/index.ts';
import { lightOf } from '../light/index.ts';
import type { Files } from './files.ts';
import { findingLine } from './findings.ts';
import { careText } from './care-text.ts';
import { careJson, checkJson, nextJson, sessionsJson } from './json.ts';
import { lightJson } from './light-json.ts';
import { lightText } from './light-text.ts';
import { nextText } from './next-text.ts';
import { report } from './report.ts';
import { sessionsText } from './sessions-text.ts';
import { careHistory } from '../history/index.ts';
import type { Terminal, Exit } from './terminal.ts';

export interface Program {
  readonly version: string;
  /**
   * A workbook by its path.
   * @param isJudged whether it will be asked what was found of visits that have ended
   */
  evaluated(file: string, isJudged: boolean): Evaluated;
  files(): Files;
  /** The day where the user is, `2026-03-14`. */
  today(): string;
}

export function run(typed: readonly string[], terminal: Terminal, { version, evaluated, files, today }: Program): Exit {
  const asked = readArguments(typed);
  const unjudged = (file: string) => evaluated(file, false);
  const judged = (file: string) => evaluated(file, true);
  switch (asked.command) {
    case 'help':
      terminal.out(USAGE);
      return 0;
    case 'version':
      terminal.out(`${version}\n`);
      return 0;
    case 'wrong':
      terminal.error(`alignbook: ${asked.reason}\n\n${USAGE}`);
      return 2;
    case 'schema':
      terminal.out(`${JSON.stringify(workbookSchema(), undefined, 2)}\n`);
      return 0;
    case 'report':
      return report(asked, judged(asked.file), terminal, version, files());
    case 'draw':
      return draw(asked, unjudged(asked.file), terminal, files);
    case 'check':
      return worst(asked, judged, (file, result) => check(file, result, asked, terminal));
    case 'next':
      return worst(asked, asked.json ? judged : unjudged, (file, result) => next(file, result, asked, terminal));
    case 'light':
      return worst(asked, unjudged, (file, result) => light(file, result, asked, terminal));
    case 'sessions':
      return worst(asked, unjudged, (file, result) => sessions(file, result, asked, terminal));
    case 'care':
      return worst(asked, unjudged, (file, result) => care(file, result, asked, terminal, today()));
  }
}

type WithFiles = Extract<Asked, { files: readonly string[] }>;

/** File by file. Standard input is read once, however often it is named. */
function worst(
  { files }: WithFiles,
  evaluated: (file: string) => Evaluated,
  show: (file: string, result: Evaluated) => Exit,
): Exit {
  let input: Evaluated | undefined;
  const exits = files.map((file) =>
    show(file, file === STANDARD_INPUT ? (input ??= evaluated(file)) : evaluated(file)),
  );
  return exits.reduce((most, exit) => Math.max(exit, most) as Exit, 0 as Exit);
}

function check(file: string, { findings, evaluation }: Evaluated, { json }: WithFiles, { out }: Terminal): Exit {
  if (json) out(`${checkJson(file, findings)}\n`);
  else for (const finding of findings) out(`${findingLine(file, finding)}\n`);
  if (!evaluation) return 2;
  return findings.some(({ severity }) => severity === 'error') ? 1 : 0;
}

function next(file: string, result: Evaluated, { json, files }: WithFiles, terminal: Terminal): Exit {
  const { evaluation } = result;
  if (json) terminal.out(`${nextJson(file, evaluation, result.findings)}\n`);
  else
    show(file, result, terminal, file === files[0], () =>
      nextText(file, evaluation!, result.now, terminal.paint, result.book && wavelengthOf(result.book)),
    );
  return evaluation ? 0 : 2;
}

function care(file: string, result: Evaluated, { json, files }: WithFiles, terminal: Terminal, today: string): Exit {
  const history = result.workbook && careHistory(result.workbook.entries);
  if (json) terminal.out(`${careJson(file, history, result.findings)}\n`);
  else show(file, result, terminal, file === files[0], () => careText(file, history!, today, terminal.paint));
  return history ? 0 : 2;
}

function sessions(file: string, result: Evaluated, { json, files }: WithFiles, terminal: Terminal): Exit {
  const { sessions: history } = result;
  if (json) terminal.out(`${sessionsJson(file, history, result.findings)}\n`);
  else
    show(file, result, terminal, file === files[0], () =>
      sessionsText(file, history!, unitsOf(result.evaluation!), terminal.paint),
    );
  return history ? 0 : 2;
}

/** For people: a line between two files; what is wrong with one that cannot be read goes elsewhere. */
function show(file: string, result: Evaluated, { out, error }: Terminal, first: boolean, text: () => string): void {
  if (!result.evaluation) error(result.findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
  else out(`${first ? '' : '\n'}${text()}`);
}

function light(file: string, result: Evaluated, { json, files }: WithFiles, { out, error, paint }: Terminal): Exit {
  const { evaluation, book } = result;
  const machine = book && machineAt(book, Infinity);
  const found = machine && evaluation && lightOf(machine, evaluation);
  if (json) out(`${lightJson(file, found, result.findings)}\n`);
  else if (!evaluation) error(result.findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
  else out(`${file === files[0] ? '' : '\n'}${lightText(file, found, evaluation, paint)}`);
  return evaluation ? 0 : 2;
}
