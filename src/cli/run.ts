/** Runs a command: prints its answer and returns the exit code. It computes nothing itself. */
import { workbookSchema } from '../workbook/index.ts';
import { add } from './add.ts';
import { isAsking, readArguments, type Asking, type Command, type FilesOptions, type Invocation } from './arguments.ts';
import { briefText } from './brief-text.ts';
import { draw } from './draw.ts';
import { explain } from './explain.ts';
import type { Evaluated } from './evaluated.ts';
import { check } from './check.ts';
import { each, type Shown } from './each.ts';
import { asksIn, machineAt, practiceAt, unitsOf, type Tables } from '../language/index.ts';
import { lightOf } from '../light/index.ts';
import type { Files } from './files.ts';
import { formatFile } from './format.ts';
import { findingLine } from './findings.ts';
import { careText } from './care-text.ts';
import { careJson, nextJson, sessionsJson } from './json.ts';
import { lightJson } from './light-json.ts';
import { lightText } from './light-text.ts';
import { nextText } from './next-text.ts';
import { createWorkbook } from './new.ts';
import { practice } from './practice.ts';
import { adviceIsClosed, practiceHead } from './practice-text.ts';
import { report } from './report.ts';
import { sessionsText } from './sessions-text.ts';
import { careHistory } from '../history/index.ts';
import type { Terminal, Exit } from './terminal.ts';
import { USAGE } from './usage.ts';

export interface Program {
  readonly version: string;
  /**
   * A workbook by its path.
   * @param isJudged whether the findings of finished visits are needed
   * @param name where it stands, if not under its path
   */
  evaluated(file: string, isJudged: boolean, name?: string): Evaluated;
  files(): Files;
  readonly tables: Tables;
  /** The date in the user's time zone, `2026-03-14`. */
  today(): string;
  /** The text of `shared/findings.md`; undefined if it cannot be read. */
  page(): string | undefined;
}

/** @param typed the words of the command line */
export function run(typed: readonly string[], terminal: Terminal, program: Program): Exit | Promise<Exit> {
  const invocation = readArguments(typed);
  return isAsking(invocation) ? converse(invocation, terminal, program) : answer(invocation, terminal, program);
}

/** Without questions. */
function answer(invocation: Exclude<Invocation, Asking>, terminal: Terminal, program: Program): Exit {
  const { version, evaluated, files } = program;
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
    case 'explain':
      return explain(invocation.code, program.page(), terminal);
    case 'report':
      return report(invocation, evaluated(invocation.file, true), terminal, version, files());
    case 'draw':
      return draw(invocation, evaluated(invocation.file, false), terminal, files);
    case 'practice':
      return practice(invocation, (file) => evaluated(file, false), program.tables, terminal, files);
    case 'check':
      return check(invocation, terminal, program);
    case 'format':
      return each(invocation.files, { terminal, read: (file) => evaluated(file, false) }, ({ file, result }) =>
        formatFile(file, result, invocation, terminal, files),
      );
    default: {
      const isJudged = invocation.command === 'next' && invocation.json;
      return each(invocation.files, { terminal, read: (file) => evaluated(file, isJudged) }, (shown) =>
        SHOWS[invocation.command](shown, invocation, terminal, program),
      );
    }
  }
}

async function converse(invocation: Asking, terminal: Terminal, program: Program): Promise<Exit> {
  const files = program.files();
  const dialogue = files.openDialogue(terminal.out);
  const conversation = { terminal, dialogue, files, today: program.today };
  try {
    return invocation.command === 'new'
      ? await createWorkbook(invocation, conversation)
      : await add(invocation, conversation, program.evaluated(invocation.file, false));
  } finally {
    dialogue.close();
  }
}

type Show = (shown: Shown, options: FilesOptions, terminal: Terminal, program: Program) => Exit;

const SHOWS: Readonly<Record<Command, Show>> = { next, light, sessions, care };

function next(shown: Shown, { json, brief }: FilesOptions, terminal: Terminal): Exit {
  const { file, result } = shown;
  const { evaluation } = result;
  // All findings are computed for programs alone: those of ended visits take as long as the rest.
  if (json) terminal.out(`${nextJson(file, evaluation, result.findings)}\n`);
  else show(shown, terminal, () => (brief ? briefOf(file, result, terminal) : nextOf(file, result, terminal)), brief);
  return evaluation ? 0 : 2;
}

function briefOf(file: string, { book }: Evaluated, { paint, columns }: Terminal): string {
  book!.closesAdvice = true;
  return briefText(file, book!, paint, columns);
}

/** For a simulated machine the step is left out until it was asked for: the learner chooses. */
function nextOf(file: string, { book, now }: Evaluated, terminal: Terminal): string {
  book!.closesAdvice = true;
  const text = nextText(file, book!, now, terminal);
  return book!.isAdviceClosed() ? `${text}${adviceIsClosed(asksIn(book!.workbook.entries))}` : text;
}

function care(shown: Shown, { json }: FilesOptions, terminal: Terminal, { today }: Program): Exit {
  const { file, result } = shown;
  const history = result.workbook && careHistory(result.workbook.entries);
  if (json) terminal.out(`${careJson(file, history, result.findings)}\n`);
  else show(shown, terminal, () => careText(file, history!, today(), terminal.paint));
  return history ? 0 : 2;
}

function sessions(shown: Shown, { json }: FilesOptions, terminal: Terminal): Exit {
  const { file, result } = shown;
  const { sessions: history } = result;
  if (json) terminal.out(`${sessionsJson(file, history, result.findings)}\n`);
  else show(shown, terminal, () => sessionsText(file, history!, unitsOf(result.evaluation!), terminal.paint));
  return history ? 0 : 2;
}

function light(shown: Shown, { json }: FilesOptions, terminal: Terminal): Exit {
  const { file, result } = shown;
  const { evaluation, book } = result;
  const machine = book && machineAt(book, Infinity);
  const beam = machine && evaluation && lightOf(machine, evaluation);
  if (json) terminal.out(`${lightJson(file, beam, result.findings)}\n`);
  else show(shown, terminal, () => lightText(file, beam, evaluation!, terminal.paint));
  return evaluation ? 0 : 2;
}

/**
 * Text output: a blank line separates two files, and the findings of an unreadable one go to standard error.
 *
 * @param isMarked whether the text itself says that a machine is simulated
 */
function show({ file, result, isFirst }: Shown, { out, error }: Terminal, text: () => string, isMarked = false): void {
  if (!result.evaluation) error(result.findings.map((finding) => `${findingLine(file, finding)}\n`).join(''));
  else out(`${isFirst ? '' : '\n'}${isMarked ? '' : practiceLine(result)}${text()}`);
}

/** Printed above whatever is printed of a simulated machine; empty for a real one. */
function practiceLine({ book }: Evaluated): string {
  const simulated = book && practiceAt(book);
  return simulated ? `${practiceHead(simulated.simulation)}\n` : '';
}
