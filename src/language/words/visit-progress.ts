/** How far the last visit has come. */
import { dayOf, visitsIn, type Entry, type LogEntry } from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';

export interface VisitProgress {
  /** From 1. */
  readonly number: number;
  readonly title?: string;
  /** The first round is the one before anything was moved. */
  readonly round: number;
  /** Marks that were read or missed. */
  readonly tapes: number;
  /** The day of its release, or that it has one. */
  readonly released?: string | true;
}

/** Undefined before the first visit. */
export function visitProgress({ workbook: { entries } }: Book): VisitProgress | undefined {
  const visit = visitsIn(entries).at(-1);
  if (!visit) return undefined;
  const own = entries.slice(visit.from, visit.to);
  const release = own.find(({ entry }) => entry.kind === 'release')?.entry;
  return {
    number: visit.number,
    ...(visit.opening && { title: visit.opening.title }),
    round: 1 + movesIn(own),
    tapes: own.reduce((sum, { entry }) => sum + tapesOf(entry), 0),
    ...(release && { released: release.date === undefined ? true : dayOf(release.date) }),
  };
}

function tapesOf(entry: Entry): number {
  return entry.kind === 'marks' ? entry.shots.reduce((sum, { marks }) => sum + marks.length, 0) : 0;
}

/** Turns and shifts, those without a mark in between as one. */
function movesIn(entries: readonly LogEntry[]): number {
  let [moves, isMoving] = [0, false];
  for (const { entry } of entries) {
    const isMove = entry.kind === 'adjust' && (Object.keys(entry.turns).length > 0 || entry.shift !== undefined);
    if (isMove && !isMoving) moves += 1;
    if (isMove || entry.kind === 'marks') isMoving = isMove;
  }
  return moves;
}
