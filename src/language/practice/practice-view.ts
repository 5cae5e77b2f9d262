/** What the panel shows of a practice machine: the tape that was fired, the comparison, what may be asked. */
import { listed, markInWords } from '../../words/index.ts';
import {
  lengthsIn,
  turnInCell,
  viewer,
  type AdjustEntry,
  type Axes,
  type PracticeComparison,
  type PracticeView,
  type TextPlace,
} from '../../model/index.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import type { Book } from '../book/book-type.ts';
import { asksIn } from '../book/closed-advice.ts';
import { burnFigure } from './burn-figure.ts';
import { comparedMarks, lastCompared, ownCells, type ComparedMark } from './compare.ts';
import { practiceAt, type PracticeMachine } from '../book/practice-at.ts';
import { burnsAtEnd, firedMarks } from './fire.ts';
import { expectationOf, placeKey } from './expected.ts';
import { LEVEL_NAMES } from './levels.ts';

const LAST = 5;

/** @param fired the mark whose tape is shown; undefined for a real machine */
export function practiceView(book: Book, station: string, fired: TextPlace | undefined): PracticeView | undefined {
  const practice = practiceAt(book);
  if (!practice) return undefined;
  const { level, seed } = practice.simulation;
  const blanks = burnsAtEnd(book).map(({ place }) => place);
  const tape = fired && burnFigure(book, fired);
  const compared = blanks.length > 0 ? [] : lastCompared(book);
  const expected = fired && expectedInWords(book, practice, fired);
  const taught = compared.length > 0 ? taughtBy(book, compared) : undefined;
  const misread = ownCells(book)
    .flatMap((cell) => comparedMarks(book, cell))
    .slice(-LAST)
    .map((mark) => lengthsIn(practice.machine.units).read(mark.misread).replace(/ mm$/, ''));
  return {
    words: `simulated machine · level ${level}, ${LEVEL_NAMES[level - 1] ?? 'unknown'} · seed ${seed} · can’t be released`,
    asks: asksIn(book.workbook.entries),
    isClosed: book.isAdviceClosed(),
    blanks,
    ...(tape && { tape: { ...tape, of: fired } }),
    ...(expected !== undefined && { expected }),
    compared: compared.map((mark) => inWords(mark, practice)),
    misread,
    ...(taught !== undefined && { taught }),
    ...(blanks.length === 0 && { shoot: { station, cell: blankCell(practice, station) } }),
  };
}

function expectedInWords(book: Book, { machine }: PracticeMachine, place: TextPlace): string | undefined {
  const fired = firedMarks(book, place.cell).find((one) => one.place.path === place.path);
  const mark = fired && expectationOf(book, place.cell).get(placeKey(fired.shot));
  const runs = fired && arrivesAt(machine, fired.station);
  return mark && runs && words(mark, machine, runs);
}

function words(mark: Axes, { units }: PracticeMachine['machine'], runs: Parameters<typeof viewer>[0]): string {
  const { rightWord, upWord } = viewer(runs);
  return markInWords(mark.right, mark.up, { runs, right: rightWord, up: upWord, units });
}

function inWords(mark: ComparedMark, { machine }: PracticeMachine): PracticeComparison {
  const runs = arrivesAt(machine, mark.station)!;
  const { read: length } = lengthsIn(machine.units);
  return {
    name: [mark.station, mark.place].filter(Boolean).join(', '),
    ...(mark.expected && { expected: words(mark.expected, machine, runs) }),
    read: words(mark.read, machine, runs),
    came: words(mark.came, machine, runs),
    misread: length(mark.misread),
    ...(mark.surprise !== undefined && { surprise: length(mark.surprise) }),
  };
}

/** `M1 B in 1/4 moved gantry near 0.8 mm and gantry far 4.2 mm`: the last turn between two marks of one place. */
function taughtBy(book: Book, compared: readonly ComparedMark[]): string | undefined {
  const { entries } = book.workbook;
  const now = entries.findIndex(({ cell }) => cell === compared[0]!.fired.place.cell);
  const before = entries.findLastIndex(
    ({ entry }, k) => k < now && entry.kind === 'marks' && entry.station === compared[0]!.station,
  );
  if (before < 0) return undefined;
  const turns = entries.slice(before + 1, now).flatMap(({ entry }) => (entry.kind === 'adjust' ? [inCell(entry)] : []));
  if (turns.length === 0) return undefined;
  const earlier = comparedMarks(book, entries[before]!.cell);
  const moved = compared.flatMap((mark) => {
    const then = earlier.find((one) => one.place === mark.place);
    if (!then) return [];
    const distance = Math.hypot(mark.read.right - then.read.right, mark.read.up - then.read.up);
    return [
      `${mark.place === '' ? mark.station : mark.place.replace(/ (?:from|M\d).*$/, '')} ${distance.toFixed(1)} mm`,
    ];
  });
  return moved.length === 0 ? undefined : `${listed(turns)} moved ${listed(moved)}.`;
}

function inCell({ part, turns, shift }: AdjustEntry): string {
  const screws = Object.entries(turns).map(([screw, amount]) => `${screw} ${turnInCell(amount)}`);
  return `${part} ${[...screws, ...(shift ? ['shifted'] : [])].join(', ') || 'locked'}`;
}

/** Blanks at the ends of the travels that move the tape: near and far, and both diagonals behind two. */
function blankCell({ machine }: PracticeMachine, station: string): string {
  const index = machine.path.findIndex(({ name }) => name === station);
  const element = machine.path[index];
  const before = machine.path.slice(0, index).filter(({ stops }) => stops);
  const ends = (stops: NonNullable<typeof element>['stops']) => {
    const names = Object.entries(stops ?? {})
      .toSorted(([, one], [, other]) => one.value - other.value)
      .map(([name]) => name);
    return [names[0]!, names.at(-1)!] as const;
  };
  const corner = (k: 0 | 1) => before.map(({ name, stops }) => `${name}: ${ends(stops)[k]}`).join(', ');
  if (!element?.stops && before.length === 0) return `marks: ${station}\nshots: \n`;
  if (element?.stops && before.length === 0) {
    const [near, far] = ends(element.stops);
    return `marks: ${station}\nshots:\n  ${near}: \n  ${far}: \n`;
  }
  const own = element?.stops ? ends(element.stops) : (['here', 'here'] as const);
  const shots = [
    `{at: ${own[0]}, with: {${corner(0)}}, mark: }`,
    `{at: ${own[1]}, with: {${corner(1)}}, mark: }`,
    ...(element?.stops ? [`{at: ${own[1]}, with: {${corner(0)}}, mark: }`] : []),
  ];
  return `marks: ${station}\nshots:\n${shots.map((shot) => `  - ${shot}\n`).join('')}`;
}
