/** Runs a command: prints its answer and returns the exit code. It computes nothing itself. */
import { workbookSchema } from '../workbook/index.ts';
import { readArguments, USAGE, type Invocation } from './arguments.ts';
import { draw } from './draw.ts';
import type { Evaluated } from './evaluated.ts';
import { STANDARD_INPUT } from '../disk/index.ts';
import { asksIn, machineAt, practiceAt, unitsOf, wavelengthOf, type Tables } from '../language/index.ts';
import { lightOf } from '../light/index.ts';
import type { Files } from './files.ts';
import { findingLine } from './findings.ts';
import { careText } from './care-text.ts';
import { careJson, checkJson, nextJson, sessionsJson } from './json.ts';
import { lightJson } from './light-json.ts';
import { lightText } from './light-text.ts';
import { nextText } from './next-text.ts';
import { practice } from './practice.ts';
import { adviceIsClosed, practiceHead } from './practice-text.ts';
import { report } from './report.ts';
import { sessionsText } from './sessions-text.ts';
import { careHistory } from '../history/index.ts';
import type { Terminal, Exit } from './terminal.ts';

export interface Program {
  readonly version: string;
  /**
   * A workbook by its path.
   * @param isJudged whether the findings of finished visits are needed
   */
  evaluated(file: string, isJudged: boolean): Evaluated;
  files(): Files;
  readonly tables: Tables;
  /** The date in the user's time zone, `2026-03-14`. */
  today(): string;
}

export function run(
  typed: readonly string[],
  terminal: Terminal,
  { version, evaluated, files, tables, today }: Program,
): Exit {
  const invocation = readArguments(typed);
  const unjudged = (file: string) => evaluated(file, false);
  const judged = (file: string) => evaluated(file, true);
  switch (invocation.command) {
    case 'help':
      terminal.out(USAGE);
      return 0;
    case 'version':
      terminal.out(`${version}\n`);
      return 0;
    case 'wrong':
      terminal.error(`alignbook: ${invocation.reason}\n\n${USAGE}`);
      return 2;
    case 'schema':
      terminal.out(`${JSON.stringify(workbookSchema(), undefined, 2)}\n`);
      return 0;
    case 'report':
      return report(invocation, judged(invocation.file), terminal, version, files());
    case 'draw':
      return draw(invocation, unjudged(invocation.file), terminal, files);
    case 'practice':
      return practice(invocation, unjudged, tables, terminal, files);
    case 'check':
      return worst(invocation, judged, (file, result) => check(file, result, invocation, terminal));
    case 'next':
      return worst(invocation, invocation.json ? judged : unjudged, (file, result) =>
        next(file, result, invocation, terminal),
      );
    case 'light':
      return worst(invocation, unjudged, (file, result) => light(file, result, invocation, terminal));
    case 'sessions':
      return worst(invocation, unjudged, (file, result) => sessions(file, result, invocation, terminal));
    case 'care':
      return worst(invocation, unjudged, (file, result) => care(file, result, invocation, terminal, today()));
  }
}

type WithFiles = Extract<Invocation, { files: readonly string[] }>;

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
  else show(file, result, terminal, file === files[0], () => nextOf(file, result, terminal));
  return evaluation ? 0 : 2;
}

/** For a simulated machine the step is left out until it was asked for: the learner chooses. */
function nextOf(file: string, result: Evaluated, { paint }: Terminal): string {
  const { book } = result;
  if (book) book.closesAdvice = true;
  const text = nextText(file, result.evaluation!, result.now, paint, book && wavelengthOf(book));
  if (!book?.isAdviceClosed()) return text;
  return `${text}${adviceIsClosed(asksIn(book.workbook.entries))}`;
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

/** Text output: a blank line separates two files, and the findings of an unreadable one go to standard error. */
function show(file: string, result: Evaluated, { out, error }: Terminal, first: boolean, text: () => string): void {
  if (!result.evaluation) error(result.findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
  else out(`${first ? '' : '\n'}${practiceLine(result)}${text()}`);
}

/** Printed above whatever is printed of a simulated machine; empty for a real one. */
function practiceLine({ book }: Evaluated): string {
  const simulated = book && practiceAt(book);
  return simulated ? `${practiceHead(simulated.simulation)}\n` : '';
}

function light(file: string, result: Evaluated, { json, files }: WithFiles, { out, error, paint }: Terminal): Exit {
  const { evaluation, book } = result;
  const machine = book && machineAt(book, Infinity);
  const beam = machine && evaluation && lightOf(machine, evaluation);
  if (json) out(`${lightJson(file, beam, result.findings)}\n`);
  else if (!evaluation) error(result.findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
  else out(`${file === files[0] ? '' : '\n'}${practiceLine(result)}${lightText(file, beam, evaluation, paint)}`);
  return evaluation ? 0 : 2;
}
