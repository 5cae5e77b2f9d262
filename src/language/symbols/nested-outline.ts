/**
 * The outline by visits: what stands outside a visit, and each visit with its cells. In a visit the marks before the
 * first move are `as found`; every move has the marks that followed it below it.
 */
import { shiftInWords } from '../../words/index.ts';
import {
  dateAt,
  isWork,
  turnInCell,
  SHOWN_STATES,
  visitsIn,
  type AdjustEntry,
  type Entry,
  type LogEntry,
  type Visit,
} from '../../model/index.ts';
import type { Book } from '../book/book-type.ts';
import { unitsAt } from '../book/units-of.ts';
import { shortState } from '../words/station-words.ts';
import { outlineOf, type OutlineItem } from './outline.ts';

/** One line of the nested outline; a visit and a group begin at the head of their first cell. */
export interface OutlineNode extends Omit<OutlineItem, 'kind'> {
  readonly kind: OutlineItem['kind'] | 'visit' | 'found' | 'moved';
  readonly children: readonly OutlineNode[];
}

/** @param withVerdicts the verdicts of marks and visits cost more than the rest */
export function nestedOutline(book: Book, withVerdicts = true): OutlineNode[] {
  const { entries } = book.workbook;
  const items = new Map(outlineOf(book, withVerdicts).map((item) => [item.start, { ...item, children: [] }]));
  const lines = (from: number, to: number) => linesOf(book, items, from, to);
  const nodes: OutlineNode[] = [];
  let next = 0;
  for (const visit of visitsIn(entries)) {
    const first = visit.opening ? visit.from : firstWork(entries, visit);
    nodes.push(...lines(next, first));
    const head = visit.opening && lines(first, first + 1)[0];
    const node = visitNode(book, visit, head, inVisit(book, visit, first, lines), withVerdicts);
    if (node) nodes.push(node);
    next = visit.to;
  }
  return [...nodes, ...lines(next, entries.length)];
}

/** The lines of the cells of these entries; a cell with a conflict has two entries and one line. */
function linesOf(
  { split, workbook: { entries } }: Book,
  items: ReadonlyMap<number, OutlineNode>,
  from: number,
  to: number,
): OutlineNode[] {
  const cells = new Set(entries.slice(from, to).map(({ cell }) => cell));
  return [...cells].flatMap((cell) => items.get(split.cells[cell]!.start) ?? []);
}

/** A visit without a session cell begins with its first work: the machine and the limits above it belong to no visit. */
function firstWork(entries: readonly LogEntry[], { from, to }: Visit): number {
  const index = entries.findIndex(({ entry }, k) => k >= from && k < to && isWork(entry));
  return index < 0 ? from : index;
}

type Lines = (from: number, to: number) => OutlineNode[];

/** The cells of a visit, the first one being its own line if it is the session. */
function inVisit(book: Book, visit: Visit, first: number, lines: Lines): OutlineNode[] {
  const { entries } = book.workbook;
  const nodes: OutlineNode[] = [];
  let next = visit.opening ? first + 1 : first;
  for (const group of groupsIn(entries, next, visit.to)) {
    nodes.push(...lines(next, group.from), ...groupNode(book, group, lines(group.from, group.to)));
    next = group.to;
  }
  return [...nodes, ...lines(next, visit.to)];
}

/** Indexes of entries, `to` exclusive. */
interface Group {
  readonly from: number;
  readonly to: number;
  readonly isMove: boolean;
}

/** Marks as found, then every move with the marks up to the next one. A group ends with its last marks. */
function groupsIn(entries: readonly LogEntry[], from: number, end: number): Group[] {
  const groups: Group[] = [];
  let open: Group | undefined;
  let hasMarks = false;
  for (let k = from; k < end; k += 1) {
    const { entry } = entries[k]!;
    if (entry.kind === 'marks') {
      open = { from: open?.from ?? k, to: k + 1, isMove: open?.isMove ?? false };
      hasMarks = true;
    } else if (isMove(entry)) {
      if (open && (hasMarks || !open.isMove)) {
        groups.push(open);
        open = undefined;
      }
      open = { from: open?.from ?? k, to: k + 1, isMove: true };
      hasMarks = false;
    }
  }
  return open ? [...groups, open] : groups;
}

function isMove(entry: Entry): entry is AdjustEntry {
  return entry.kind === 'adjust' && (Object.keys(entry.turns).length > 0 || entry.shift !== undefined);
}

function groupNode(book: Book, { from, to, isMove: isOfMove }: Group, children: readonly OutlineNode[]): OutlineNode[] {
  const [first, last] = [children[0], children.at(-1)];
  if (!first || !last) return [];
  const entries = book.workbook.entries.slice(from, to);
  const stations = new Set(entries.flatMap(({ entry }) => (entry.kind === 'marks' ? [entry.station] : [])));
  return [
    {
      ...first,
      kind: isOfMove ? 'moved' : 'found',
      name: isOfMove ? movesInWords(book, entries) : 'as found',
      detail: [...stations].join(', '),
      end: last.end,
      children,
    },
  ];
}

/** `M1: A out 1/4, B in 1/8; tube: 1 mm up` */
function movesInWords(book: Book, entries: readonly LogEntry[]): string {
  const byPart = new Map<string, string[]>();
  for (const { entry, cell } of entries) {
    if (!isMove(entry)) continue;
    const turns = Object.entries(entry.turns).map(([screw, turn]) => `${screw} ${turnInCell(turn)}`);
    const shift = entry.shift ? [shiftInWords(entry.shift.by, unitsAt(book, cell))] : [];
    byPart.set(entry.part, [...(byPart.get(entry.part) ?? []), ...turns, ...shift]);
  }
  return [...byPart].map(([part, moves]) => `${part}: ${moves.join(', ')}`).join('; ');
}

function visitNode(
  book: Book,
  visit: Visit,
  own: OutlineNode | undefined,
  children: readonly OutlineNode[],
  withVerdicts: boolean,
): OutlineNode | undefined {
  const { opening, to, number } = visit;
  const { entries } = book.workbook;
  const head = own ?? children[0];
  if (!head) return undefined;
  return {
    ...head,
    kind: 'visit',
    name: opening ? opening.title || 'session' : `visit ${number}`,
    detail: [dateAt(entries, visit, to - 1), ended(entries, visit), withVerdicts ? verdict(book, to) : '']
      .filter(Boolean)
      .join(', '),
    end: children.at(-1)?.end ?? head.end,
    children,
  };
}

function ended(entries: readonly LogEntry[], { from, to }: Visit): string {
  const release = entries.slice(from, to).findLast(({ entry }) => entry.kind === 'release')?.entry;
  if (release?.kind !== 'release') return 'not released';
  return release.to === 'in service' ? 'released' : release.to;
}

/** The state that matters most among the stations at the end of the visit. */
function verdict({ log }: Book, to: number): string {
  const { stations } = log.evaluation(to);
  const worst = SHOWN_STATES.find((shown) => stations.some(({ state }) => state === shown));
  return worst === undefined || worst === 'blocked' || worst === 'unexplained' ? '' : shortState(worst);
}
