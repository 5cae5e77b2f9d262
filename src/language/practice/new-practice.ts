/** Writes the workbook of a practice machine: at the first level with a worked example, at the last a log begun. */
import { appendCells } from '../../cells/index.ts';
import { listed, markInWords } from '../../words/index.ts';
import { turnInCell, type Simulation, type TextPlace } from '../../model/index.ts';
import {
  COLLEAGUE,
  colleaguesTurn,
  describedResponse,
  draws,
  hiddenMachine,
  type Fault,
} from '../../simulator/index.ts';
import type { Tables } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { createBook } from '../book/book.ts';
import { machineAt } from '../book/machine-at.ts';
import { placeMark } from '../edits/place-mark.ts';
import { burnsAtEnd } from './fire.ts';
import { CHECKS, CHECKS_DONE, machineText } from './levels.ts';

/** @param simulation the level from 1 to the highest; the same seed and level give the same text */
export function practiceWorkbook(tables: Tables, simulation: Simulation): string {
  const writing = new Writing(tables, machineText(simulation));
  if (simulation.level === 1) return exampleIn(writing);
  if (simulation.level === 5) return begunLog(writing, simulation);
  return writing.add('session: practice\nreason: routine\n', CHECKS).text;
}

/** A workbook while it is written: every mark in it is read from the simulated machine. */
class Writing {
  text: string;
  readonly #tables: Tables;

  constructor(tables: Tables, text: string) {
    this.#tables = tables;
    this.text = text;
  }

  get book(): Book {
    const book = createBook(this.#tables, 'practice.alignbook.yaml', new Map(), this.text);
    book.advance(() => false);
    return book;
  }

  add(...cells: readonly string[]): this {
    this.text = appendCells(this.text, cells);
    return this;
  }

  /** Appends a marks cell and reads its tapes; `as` is how somebody reads one, by its number. @returns the readings */
  shoot(cell: string, as: (marks: readonly Read[]) => readonly Read[] = (marks) => marks): readonly Read[] {
    this.add(cell);
    const burns = burnsAtEnd(this.book);
    const marks = as(
      burns.map(({ burn }) => ('none' in burn ? MISSED : { right: half(burn.right), up: half(burn.up) })),
    );
    // From the last blank to the first, so that their places stay.
    for (const [k, { place }] of [...burns.entries()].toReversed()) this.#fill(place, marks[k]!);
    return marks;
  }

  #fill(place: TextPlace, mark: Read): void {
    const changes = placeMark(this.book, place, mark) ?? [];
    for (const { start, end, text } of changes)
      this.text =
        this.text.slice(0, start) + (mark === MISSED ? text.replace(/\S.*$/, 'none') : text) + this.text.slice(end);
  }
}

interface Read {
  readonly right: number;
  readonly up: number;
}

/** A tape without a mark. */
const MISSED: Read = { right: 99, up: 99 };

/** As it is read: half millimetres. */
function half(mm: number): number {
  return Math.round(2 * mm) / 2 + 0;
}

const STATION = 'target';
/** Within the limit with room for the reading. */
const GOOD = 1.2;
const MOST_TURNS = 4;

/** The first machine: one screw after the other, each cell explained; then it is knocked, and it is the learner's turn. */
function exampleIn(writing: Writing): string {
  writing.add(
    `session: worked example\nreason: routine\nnote: |\n${indented(WELCOME)}`,
    `${CHECKS_DONE}note: |\n${indented('On a simulated machine nothing fires. On a real one nobody shoots before this.')}`,
  );
  writing.shoot(`marks: M1\nshots: \nnote: |\n${indented(ON_M1)}`);
  let mark = writing.shoot(`marks: ${STATION}\nshots: \nnote: |\n${indented(FIRST_MARK)}`)[0]!;
  for (let k = 0; k < MOST_TURNS && Math.max(Math.abs(mark.right), Math.abs(mark.up)) > GOOD; k++) {
    const cell = turnFor(writing.book, mark);
    if (cell === undefined) break;
    writing.add(cell);
    mark = writing.shoot(`marks: ${STATION}\nshots: \nnote: |\n${indented(AFTER_TURN)}`)[0]!;
  }
  return writing.add(
    `event: knocked\nnote: |\n${indented(KNOCKED)}`,
    `session: your turn\nreason: fault\nnote: |\n${indented(YOUR_TURN)}`,
    CHECKS,
  ).text;
}

const WELCOME = `A tape over an aperture, one short pulse, a burn: that is a mark.
It is read from the middle of the aperture, in millimetres, looking along
the beam at the burnt side. Below: the beam of M1 is brought to the middle
of the target. Read each cell, then do the same in the last session.`;
const ON_M1 = `The mark on M1 first: it shows where the tube aims.
M1's own screws cannot change it. It is within 3 mm, so it stays.`;
const FIRST_MARK = `Before it was shot: an expectation. The plate of M1 was never set,
so anything within the tape. The mark is not centred: M1 aims past it.`;
const AFTER_TURN = `Shot again on fresh tape. Compare with what was predicted:
the difference is what this screw does more or less than its thread says.`;
const KNOCKED = `Somebody leaned on the machine. Every mark above is stale.`;
const YOUR_TURN = `The same machine, knocked. Do the checks, shoot M1, shoot the target.
Write what you expect as x-expected in the cell, then Fire, read, compare.`;

function indented(text: string): string {
  return text
    .split('\n')
    .map((line) => `  ${line}\n`)
    .join('');
}

const SIXTEENTHS = 16;

/** The two screws that bring the mark to the centre by the drawing of the mount, in sixteenths. */
function turnFor(book: Book, mark: Read): string | undefined {
  const machine = machineAt(book, Infinity);
  const at = { station: STATION, carriages: {} };
  const [a, b] = ['A', 'B'].map((screw) => machine && describedResponse(machine, 0, screw, at));
  const determinant = a && b && a.right * b.up - b.right * a.up;
  if (!machine || !a || !b || !determinant) return undefined;
  const solved = {
    A: (-mark.right * b.up + mark.up * b.right) / determinant,
    B: (-mark.up * a.right + mark.right * a.up) / determinant,
  };
  const turns = Object.entries(solved)
    .map(([screw, amount]) => [screw, Math.round(amount * SIXTEENTHS) / SIXTEENTHS] as const)
    .filter(([, amount]) => amount !== 0);
  if (turns.length === 0) return undefined;
  const frame = book.evaluation().stations.find(({ name }) => name === STATION)!.frame;
  const effects = turns.map(([screw, amount]) => {
    const per = screw === 'A' ? a : b;
    return `${screw} ${turnInCell(amount)} moves the mark ${markInWords(amount * per.right, amount * per.up, frame)} mm`;
  });
  const written = turns.map(([screw, amount]) => `${screw}: ${turnInCell(amount)}`).join(', ');
  const note = `By the drawing of the mount ${listed(effects)}.\nIn is clockwise: that corner of the mirror goes toward the beam.`;
  return `adjust: M1\nturn: {${written}}\nnote: |\n${indented(note)}`;
}

/** A visit that somebody began: what they found, one turn, and what came of it; some of them with a slip. */
function begunLog(writing: Writing, simulation: Simulation): string {
  writing.add(`session: spring service\nreason: routine\nby: ${COLLEAGUE}\n`, CHECKS_DONE);
  writing.shoot('marks: M1\nshots: \n');
  writing.shoot('marks: M2\nshots: {near: , far: }\n');
  const { fault } = hiddenMachine(machineAt(writing.book, Infinity)!, simulation);
  const made = colleaguesTurn(draws(simulation.seed));
  const written = turnInCell(fault === 'sense' ? -made.turns : made.turns);
  writing.add(`adjust: M1\nlock: loose\nturn: {${['A', 'B'][made.screw]}: ${written}}\nby: ${COLLEAGUE}\n`);
  writing.shoot('marks: M2\nshots: {near: , far: }\n', (marks) => slipped(marks, fault));
  return writing.add('session: taken over\nreason: routine\n', CHECKS).text;
}

/** Marks as the colleague wrote them. */
function slipped(marks: readonly Read[], fault: Fault | undefined): readonly Read[] {
  if (fault === 'mirrored') return marks.map((mark) => (mark === MISSED ? mark : { ...mark, right: 0 - mark.right }));
  return fault === 'exchanged' ? marks.toReversed() : marks;
}
