/** Asks for the marks of the next step, or whether it is done, and logs it: one cell after another, each at once. */
import { appendCells } from '../cells/index.ts';
import { adviceNow, blankMarks, cautionsNow, machineAt, stateInWords, type Book } from '../language/index.ts';
import { harmless, message, severity, type Step } from '../model/index.ts';
import type { AddOptions } from './arguments.ts';
import type { Conversation } from './conversation.ts';
import type { Evaluated } from './evaluated.ts';
import { findingLine } from './findings.ts';
import { askDone } from './add-done.ts';
import { readMarks, unknownMark, withHeights } from './add-marks.ts';
import type { Adding } from './adding.ts';
import { practiceHead } from './practice-text.ts';
import { textWidth, type Exit } from './terminal.ts';
import { wrapped } from './wrap.ts';

/** What came of a step: the rest follows, or not; or why it cannot be logged. */
type Outcome = 'logged' | 'open' | { readonly problem: string };

export async function add(options: AddOptions, conversation: Conversation, opened: Evaluated): Promise<Exit> {
  const { terminal } = conversation;
  const { book } = opened;
  if (!book) {
    terminal.error(opened.findings.map((finding) => `${findingLine(options.file, finding)}\n`).join(''));
    return 2;
  }
  const show = (text: string, lead = '') => terminal.out(`${wrapped(text, lead, textWidth(terminal)).join('\n')}\n`);
  const adding: Adding = { ...conversation, options, book, show };
  const { text } = book;
  const practice = machineAt(book, Infinity)?.practice;
  if (practice) show(practiceHead(practice));
  const refusal = refusalOf(book) ?? unknownMark(adding);
  const problem = refusal === undefined ? await logged(adding) : `${refusal} Nothing was added.`;
  if (book.text !== text) showResult(adding);
  else if (problem === undefined) show('Nothing was added.');
  if (problem === undefined) return 0;
  // A file that cannot be written is named there.
  const named = problem.startsWith(options.file) ? problem : `${options.file}: ${problem}`;
  terminal.error(`alignbook: ${harmless(named)}\n`);
  return 2;
}

/** Why nothing may be added to the log as it is. */
function refusalOf(book: Book): string | undefined {
  if (book.split.problems.some(({ code }) => code === 'cells.conflict'))
    return 'A version-control conflict is not resolved.';
  const last = book.split.cells.length - 1;
  const wrong = book.findingsSoFar().find((finding) => finding.cell === last && severity(finding) === 'error');
  return wrong && `The last cell has an error: ${message(wrong)}`;
}

/**
 * The blanks of the last cell first; else the steps up to the next shot, in order, until one is not done. Returns what
 * prevents the rest.
 */
async function logged(adding: Adding): Promise<string | undefined> {
  const { book, show } = adding;
  if (blankMarks(book)) return problemOf(await fillIn(adding));
  const { steps, ways } = adviceNow(book);
  const chosen = ways ? await choice(adding, ways) : steps;
  if (!chosen || chosen.length === 0) return undefined;
  if (chosen.every(({ cell, kind }) => cell === undefined && kind !== 'check'))
    return `${chosen.map(({ say }) => say).join(' ')} There is nothing to log before that.`;
  showCautions(adding, chosen);
  for (const [k, step] of chosen.entries()) {
    show(step.say, chosen.length > 1 ? `${k + 1}. ` : '');
    // What only tells what to do leaves nothing to log.
    if (step.cell === undefined && step.kind !== 'check') continue;
    const outcome = step.kind === 'shoot' ? await shoot(adding, step) : await done(adding, step);
    if (outcome !== 'logged') return problemOf(outcome);
  }
  return undefined;
}

function problemOf(outcome: Outcome): string | undefined {
  return typeof outcome === 'object' ? outcome.problem : undefined;
}

/** The steps of one of two ways; undefined: nobody chooses. */
async function choice(
  { show, dialogue, options: { yes } }: Adding,
  ways: NonNullable<ReturnType<typeof adviceNow>['ways']>,
): Promise<readonly Step[] | undefined> {
  if (yes) return ways[0]!.steps;
  ways.forEach(({ say }, k) => show(say, `${k + 1}. `));
  for (;;) {
    const typed = await dialogue.ask(`Which way [1-${ways.length}]: `);
    if (typed === undefined) return undefined;
    const way = ways[Number(typed) - 1];
    if (way) return way.steps;
  }
}

function showCautions({ book, show }: Adding, steps: readonly Step[]): void {
  for (const line of cautionsNow(book, steps).lines) show(line, '! ');
}

async function done(adding: Adding, step: Step): Promise<Outcome> {
  if (step.kind === 'release' && machineAt(adding.book, Infinity)?.practice)
    return { problem: 'A practice machine cannot be released: it is simulated.' };
  for (;;) {
    const answer = await askDone(adding, step);
    if (answer === undefined) return 'open';
    const problem = save(adding, appendCells(adding.book.text, [answer.cell]));
    if (problem === undefined) return answer.isWhole ? 'logged' : 'open';
    if (!answer.isTyped) return { problem };
    adding.show(problem, '  ? ');
  }
}

type Shoot = Extract<Step, { kind: 'shoot' }>;

/** A cell with blanks, which are filled in before it is saved. */
async function shoot(adding: Adding, step: Shoot): Promise<Outcome> {
  const { book } = adding;
  const before = book.text;
  read(book, appendCells(before, [await withHeights(adding, step)]));
  return fillIn(adding, before);
}

/** @param before the text on the disk */
async function fillIn(adding: Adding, before = adding.book.text): Promise<Outcome> {
  const { book } = adding;
  const marks = await readMarks(adding);
  const { text } = marks;
  read(book, before);
  if (marks.problem !== undefined) return { problem: marks.problem };
  if (marks.count === 0) return 'open';
  const problem = save(adding, text);
  return problem === undefined ? 'logged' : { problem };
}

function read(book: Book, text: string): void {
  book.change(text);
  book.fold();
}

/** Saves a text in which the cells added are right; otherwise the workbook stays as it was. */
function save({ book, files, options: { file } }: Adding, text: string): string | undefined {
  const before = book.text;
  const first = book.split.cells.length - 1;
  read(book, text);
  const wrong = book.findingsSoFar().find((finding) => finding.cell >= first && severity(finding) === 'error');
  const problem = wrong
    ? `${message(wrong)} Nothing was added.`
    : files.rewrite(file, Buffer.from(before), Buffer.from(text));
  if (problem !== undefined) read(book, before);
  return problem;
}

/** The verdict on the station of the last marks, and what comes next. */
function showResult({ book, show, terminal: { paint, out } }: Adding): void {
  const { stations } = book.evaluation();
  const last = book.workbook.entries.at(-1)?.entry;
  const station = last?.kind === 'marks' ? stations.find(({ name }) => name === last.station) : undefined;
  out('\n');
  if (station) show(`${station.name}: ${stateInWords(station)}.`);
  out(`${paint('bold', adviceNow(book).sentence)}\n`);
}
