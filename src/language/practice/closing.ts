/**
 * The closing sheet of a practice machine: the learner's way beside the short one, what it took, how well tapes were
 * read, and whether the machine is truly within. Turns in turns, lengths mm.
 */
import { turnInCell, type AdjustEntry, type Limits, type LogEntry } from '../../model/index.ts';
import {
  hiddenMachine,
  stateAfter,
  worstUtilisation,
  type Hidden,
  type TrueUtilisation,
} from '../../simulator/index.ts';
import type { Tables } from '../../workbook/index.ts';
import type { Book } from '../book/book-type.ts';
import { asksIn } from '../book/closed-advice.ts';
import { comparedMarks, ownCells, ownStart } from './compare.ts';
import { practiceAt } from '../book/practice-at.ts';
import { shortestWay, type Way, type WayPoint } from './shortest.ts';

/** The closing sheet. */
export interface Closing {
  readonly seed: number;
  readonly level: number;
  /** The worst true utilisation of a limit now. */
  readonly worst: TrueUtilisation;
  /** What the workbook concludes from the marks. */
  readonly isSaidWithin: boolean;
  readonly yours: Way;
  readonly shortest: Way;
  readonly asks: number;
  /** Cells that moved something, and those after which the machine was really nearer to its limits. */
  readonly moves: number;
  readonly right: number;
  /** Of all marks; absent without one. */
  readonly medianMisread?: number;
  readonly medianSurprise?: number;
  /** The adjustment that cost most, and after how many tapes. */
  readonly costly?: { readonly say: string; readonly tapes: number };
}

/**
 * Undefined for a real machine, without limits, before anything is shot (the sheet would show what is hidden), and while
 * a version-control conflict stands. The book must be up to date.
 */
export function closingSheet(book: Book, tables: Tables): Closing | undefined {
  const practice = practiceAt(book);
  const limits = limitsIn(book.workbook.entries);
  if (!practice || !limits) return undefined;
  const hidden = hiddenMachine(practice.machine, practice.simulation);
  const { entries } = book.workbook;
  const worst = worstUtilisation(hidden, stateAfter(hidden, entries), limits);
  if (!worst) return undefined;
  const steps = stepsOf(book, hidden, limits);
  const marks = ownCells(book).flatMap((cell) => comparedMarks(book, cell));
  if (marks.length === 0 || book.split.problems.some(({ code }) => code === 'cells.conflict')) return undefined;
  const misread = median(marks.map((mark) => mark.misread));
  const surprise = median(marks.flatMap((mark) => mark.surprise ?? []));
  const moves = steps.filter(({ entry }) => entry.kind === 'adjust');
  const costly = moves
    .filter((step) => step.after > step.before * WORSE)
    .toSorted((one, other) => other.after - other.before - (one.after - one.before))[0];
  return {
    ...practice.simulation,
    worst,
    isSaidWithin: book.evaluation().verdict === 'within',
    yours: {
      points: pointsOf(steps),
      adjustments: moves.reduce((sum, { entry }) => sum + movesIn(entry as AdjustEntry), 0),
      tapes: steps.at(-1)?.tapes ?? 0,
    },
    shortest: shortestWay(tables, textBefore(book), hidden, limits),
    asks: asksIn(entries),
    moves: moves.length,
    right: moves.filter(({ before, after }) => after < before).length,
    ...(misread !== undefined && { medianMisread: misread }),
    ...(surprise !== undefined && { medianSurprise: surprise }),
    ...(costly && { costly: { say: adjustInWords(costly.entry as AdjustEntry), tapes: costly.tapes } }),
  };
}

/** A move is called costly if it took the machine further off by more than a tenth. */
const WORSE = 1.1;

interface OwnStep {
  readonly entry: LogEntry['entry'];
  /** True utilisation of the worst limit. */
  readonly before: number;
  readonly after: number;
  /** Tapes shot up to here. */
  readonly tapes: number;
}

function stepsOf(book: Book, hidden: Hidden, limits: Limits): OwnStep[] {
  const { entries } = book.workbook;
  const start = ownStart(book);
  const worstAt = (count: number) =>
    worstUtilisation(hidden, stateAfter(hidden, entries.slice(0, count)), limits)?.share ?? 0;
  let [tapes, before] = [0, worstAt(start)];
  return entries.slice(start).map(({ entry }, k): OwnStep => {
    const after = entry.kind === 'marks' || entry.kind === 'note' ? before : worstAt(start + k + 1);
    if (entry.kind === 'marks') tapes += entry.shots.reduce((sum, { marks }) => sum + marks.length, 0);
    const step = { entry, before, after, tapes };
    before = after;
    return step;
  });
}

/** At the start, then after each marks cell. */
function pointsOf(steps: readonly OwnStep[]): WayPoint[] {
  const shots = steps.filter(({ entry }) => entry.kind === 'marks');
  return [
    ...(steps[0] ? [{ tapes: 0, worst: steps[0].before }] : []),
    ...shots.map(({ tapes, after }) => ({ tapes, worst: after })),
  ];
}

function movesIn({ turns, shift }: AdjustEntry): number {
  return Object.values(turns).filter((amount) => amount !== 0).length + (shift ? 1 : 0);
}

function adjustInWords({ part, turns, shift }: AdjustEntry): string {
  const words = Object.entries(turns).map(([screw, amount]) => `${screw} ${turnInCell(amount)}`);
  return [`${part}`, ...(words.length > 0 ? [words.join(', ')] : []), ...(shift ? ['shifted'] : [])].join(' ');
}

function limitsIn(entries: readonly LogEntry[]): Limits | undefined {
  const entry = entries.findLast((one) => one.entry.kind === 'limits')?.entry;
  return entry?.kind === 'limits' ? entry.limits : undefined;
}

/** Up to the learner's first shot or move: the session that the workbook opened, with its checks. */
function textBefore(book: Book): string {
  const { entries } = book.workbook;
  const first = entries.slice(ownStart(book)).find(({ entry }) => entry.kind !== 'session' && entry.kind !== 'checks');
  const cell = first && book.split.cells[first.cell];
  return cell ? book.text.slice(0, cell.start) : book.text;
}

function median(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  return values.toSorted((one, other) => one - other)[Math.floor(values.length / 2)];
}
