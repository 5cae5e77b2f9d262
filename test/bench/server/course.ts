/** The measurements of one server with one workbook. Times in ms, medians over the rounds. */
import type { Diagnostic } from 'vscode-languageserver-protocol/node.js';
import { median } from '../median.ts';
import type { Place, Seeded } from './seeded.ts';
import { Run, type Subject } from './subject.ts';

export interface Course {
  readonly first: number;
  readonly opened: number;
  /** The first edit after opening. */
  readonly firstEdit: number;
  readonly editEnd: number;
  readonly editStart: number;
  /** Longest that a hover near the end waited while an edit near the start, or of the machine, was followed. */
  readonly blockedStart: number;
  readonly blockedMachine: number;
  readonly hover: number;
  readonly hoverAfterKey: number;
  readonly completion: number;
  readonly completionAfterKey: number;
  readonly memory: number;
}

const URI = 'file:///workshop/bench.alignbook.yaml';

export async function course(subject: Subject, seeded: Seeded, rounds: number): Promise<Course> {
  const openings: Pick<Course, 'first' | 'opened'>[] = [];
  for (let k = 1; k < OPENINGS; k++) openings.push(await opening(subject, seeded));
  const last = await edited(subject, seeded, rounds);
  const middle = (key: 'first' | 'opened') => median([...openings, last].map((one) => one[key]));
  return { ...last, first: middle('first'), opened: middle('opened') };
}

/** Each in a process of its own. */
const OPENINGS = 3;

async function opening(subject: Subject, { text, start, end }: Seeded): Promise<Pick<Course, 'first' | 'opened'>> {
  const run = await Run.start(subject, URI);
  const finds = subject.name !== 'empty server';
  const times = [start, end].map((place) => run.until((evaluation) => !finds || isBehind(evaluation, place)));
  await run.open(text);
  const [first, opened] = await Promise.all(times);
  await run.stop();
  return { first: first!, opened: opened! };
}

async function edited(subject: Subject, { text, start, end, machine }: Seeded, rounds: number): Promise<Course> {
  const run = await Run.start(subject, URI);
  const finds = subject.name !== 'empty server';
  let [atStart, atEnd] = [start, end];
  const next = ({ line, character }: Place): Place => ({ line, character: character + 1 });
  const seen = (place: Place) => run.until((evaluation) => !finds || isBehind(evaluation, place));
  const typeAtEnd = async () => {
    await run.type(atEnd, 'x');
    atEnd = next(atEnd);
  };
  const typeAtStart = async () => {
    await run.type(atStart, 'x');
    atStart = next(atStart);
  };

  const editEnd = async () => {
    const done = seen(next(atEnd));
    await typeAtEnd();
    return done;
  };

  const [first, opened] = [seen(start), seen(end)];
  await run.open(text);
  const result = {
    first: await first,
    opened: await opened,
    firstEdit: await editEnd(),
    hover: await typical(rounds, () => run.hover(hovered(atEnd))),
    completion: await typical(rounds, () => run.completion(completed(atEnd))),
    editEnd: await typical(rounds, editEnd),
    hoverAfterKey: await typical(rounds, async () => {
      const done = seen(next(atEnd));
      await typeAtEnd();
      const time = await run.hover(hovered(atEnd));
      await done;
      return time;
    }),
    completionAfterKey: await typical(rounds, async () => {
      const done = seen(next(atEnd));
      await typeAtEnd();
      const time = await run.completion(completed(atEnd));
      await done;
      return time;
    }),
    editStart: await typical(rounds, async () => {
      const done = seen(next(atStart));
      await typeAtStart();
      return done;
    }),
    blockedStart: await worst(rounds, async () => {
      const done = seen(next(atStart));
      await typeAtStart();
      return longestHover(run, hovered(atEnd), done);
    }),
    // One after the other: the end of the processing of an edit cannot be seen from outside.
    blockedMachine: await worst(2, async () => {
      await run.type(machine, '0');
      return longestHover(run, hovered(atEnd), new Promise((resolve) => setTimeout(resolve, 1500)));
    }),
    memory: run.memory(),
  };
  await run.stop();
  return result;
}

const BETWEEN = ', tape: ';

/** The mistake stands behind the note, as it is now. */
function isBehind(evaluation: readonly Diagnostic[], { line, character }: Place): boolean {
  return evaluation.some(
    ({ range: { start } }) => start.line === line && start.character === character + BETWEEN.length,
  );
}

function hovered({ line }: Place): Place {
  return { line, character: 2 };
}

function completed({ line }: Place): Place {
  return { line, character: '{marks: M'.length };
}

async function longestHover(run: Run, place: Place, until: Promise<unknown>): Promise<number> {
  let isOver = false;
  void until.then(() => (isOver = true));
  let longest = 0;
  do longest = Math.max(longest, await run.hover(place));
  while (!isOver);
  return longest;
}

/** Warm-up rounds, which are not counted. */
const WARM = 3;

async function times(rounds: number, work: () => Promise<number>): Promise<number[]> {
  const evaluation: number[] = [];
  for (let round = -WARM; round < rounds; round++) {
    // At the speed of a person's typing.
    await new Promise((resolve) => setTimeout(resolve, 100));
    const time = await work();
    if (round >= 0) evaluation.push(time);
  }
  return evaluation;
}

async function typical(rounds: number, work: () => Promise<number>): Promise<number> {
  return median(await times(rounds, work));
}

async function worst(rounds: number, work: () => Promise<number>): Promise<number> {
  return Math.max(...(await times(rounds, work)));
}
