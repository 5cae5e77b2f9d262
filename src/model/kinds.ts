/**
 * The kinds of cell, once: a cell is of the kind whose word is among its keys. Every list of kinds and every table by kind
 * follows from this one, so that a kind which is not complete does not compile. What a kind reads, what it is called and
 * how it is begun stands in `src/workbook/kinds`, one file a kind.
 */
interface KindRow {
  /** A cell of it measures or moves something: it begins a visit where none is under way. */
  readonly isWork: boolean;
  /**
   * What a cell of it that cannot be read whole may have changed: `everything`; its `part` and what comes after that; what
   * was read at its `station`; the `limits`; the `visit` to which the cells below belong; or `nothing`.
   */
  readonly unread: UnreadReach;
}

export type UnreadReach = 'everything' | 'part' | 'station' | 'limits' | 'visit' | 'nothing';

/** In the order in which the format describes them. */
const ROWS = {
  machine: { isWork: false, unread: 'everything' },
  limits: { isWork: false, unread: 'limits' },
  session: { isWork: false, unread: 'visit' },
  marks: { isWork: true, unread: 'station' },
  adjust: { isWork: true, unread: 'part' },
  care: { isWork: true, unread: 'part' },
  power: { isWork: true, unread: 'nothing' },
  measure: { isWork: true, unread: 'nothing' },
  event: { isWork: true, unread: 'everything' },
  checks: { isWork: false, unread: 'nothing' },
  note: { isWork: false, unread: 'nothing' },
  work: { isWork: false, unread: 'nothing' },
  release: { isWork: false, unread: 'nothing' },
} as const satisfies Readonly<Record<string, KindRow>>;

export type Kind = keyof typeof ROWS;

export const KINDS = Object.keys(ROWS) as readonly Kind[];

export function isKind(word: string): word is Kind {
  return Object.hasOwn(ROWS, word);
}

/** Whether cells of this kind measure or move something. */
export function isWorkKind(kind: Kind): boolean {
  return ROWS[kind].isWork;
}

/** @param kind of a cell that cannot be read whole; absent where even that is not known */
export function unreadReach(kind: Kind | undefined): UnreadReach {
  return kind === undefined ? 'everything' : ROWS[kind].unread;
}
