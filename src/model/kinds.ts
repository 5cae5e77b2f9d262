/**
 * The kinds of cell: a cell is of the kind whose word is among its keys. Every list of kinds and every table by kind
 * follows from this one, so that an incomplete kind does not compile. What a kind reads, its name and its skeleton are
 * in `src/workbook/kinds`, one file for each kind.
 */
interface KindRow {
  /** A cell of it measures or moves something: it begins a visit if none is open. */
  readonly isWork: boolean;
  /** The laser was fired for it: the order of work requires safety checks before it. */
  readonly isShot: boolean;
  /**
   * What a cell of it with errors may have changed: `everything`; its `part` and all elements after it; the readings at
   * its `station`; the `limits`; the `visit` of the cells below; or `nothing`.
   */
  readonly unread: UnreadReach;
}

/** What a cell with errors may have changed. */
export type UnreadReach = 'everything' | 'part' | 'station' | 'limits' | 'visit' | 'nothing';

/** In the order in which the format describes them. */
const ROWS = {
  machine: { isWork: false, isShot: false, unread: 'everything' },
  limits: { isWork: false, isShot: false, unread: 'limits' },
  session: { isWork: false, isShot: false, unread: 'visit' },
  marks: { isWork: true, isShot: true, unread: 'station' },
  adjust: { isWork: true, isShot: false, unread: 'part' },
  care: { isWork: true, isShot: false, unread: 'part' },
  power: { isWork: true, isShot: true, unread: 'nothing' },
  measure: { isWork: true, isShot: false, unread: 'nothing' },
  event: { isWork: true, isShot: false, unread: 'everything' },
  checks: { isWork: false, isShot: false, unread: 'nothing' },
  note: { isWork: false, isShot: false, unread: 'nothing' },
  work: { isWork: false, isShot: false, unread: 'nothing' },
  release: { isWork: false, isShot: false, unread: 'nothing' },
} as const satisfies Readonly<Record<string, KindRow>>;

/** A kind of cell, by its word. */
export type Kind = keyof typeof ROWS;

/** All kinds of cell. */
export const KINDS = Object.keys(ROWS) as readonly Kind[];

/** Whether a word is that of a kind of cell. */
export function isKind(word: string): word is Kind {
  return Object.hasOwn(ROWS, word);
}

/** Whether cells of this kind measure or move something. */
export function isWorkKind(kind: Kind): boolean {
  return ROWS[kind].isWork;
}

/** Whether the laser was fired for cells of this kind; that of a cell with errors is unknown and does not count. */
export function isShotKind(kind: Kind | 'unread'): boolean {
  return kind !== 'unread' && ROWS[kind].isShot;
}

/** @param kind of a cell with errors; absent if the kind could not be read */
export function unreadReach(kind: Kind | undefined): UnreadReach {
  return kind === undefined ? 'everything' : ROWS[kind].unread;
}
