/** One workbook among others: how its machine stands, what is due and when, and who has to do something. */
import type { ShownState } from './evaluation.ts';
import type { TextPlace } from './figures.ts';

/** By what somebody must do. `practice`: a simulated machine. `unreadable`: nothing can be stated about it. */
export const MACHINE_GROUPS = ['needs', 'due', 'service', 'practice', 'unreadable'] as const;
export type MachineGroup = (typeof MACHINE_GROUPS)[number];

/** What may be shown of a machine as a whole, what matters most first. */
export const SHOWN_STATES = [
  'blocked',
  'unexplained',
  'outside',
  'stale',
  'borderline',
  'incomplete',
  'unread',
  'within',
  'unlimited',
] as const satisfies readonly ShownState[];

export type MachineSummary = ReadableMachine | UnreadableWorkbook;

export interface ReadableMachine {
  readonly group: Exclude<MachineGroup, 'unreadable'>;
  readonly name: string;
  readonly title?: string;
  readonly state: ShownState;
  /** The one thing that matters, the word of the state first: `within · lens in 4 h`. */
  readonly says: string;
  /** What to do now, and what belongs to it, in sentences. */
  readonly sentence: string;
  readonly then: readonly string[];
  /** The day that it is sorted by within its group; what has none comes first. */
  readonly on?: string;
  readonly items: readonly MachineItem[];
}

export interface UnreadableWorkbook {
  readonly group: 'unreadable';
  /** Why, in half a sentence: `line 4: merge conflict`. */
  readonly says: string;
  readonly place?: TextPlace;
}

/** One fact about a machine. */
export interface MachineItem {
  readonly kind: 'visit' | 'care' | 'drift' | 'open' | 'error';
  readonly name: string;
  readonly says: string;
  /** What it is about in the text; absent if the text has no such place. */
  readonly place?: TextPlace;
}

/** Today is the editor's date, the only clock. `anew` forgets what is known of files on disk. */
export interface MachinesParams {
  readonly today: string;
  readonly anew?: boolean;
}

/** A machine with the address of its workbook. */
export type ListedMachine = MachineSummary & { readonly uri: string };

/** The workbooks read so far, and the number of those that are still to be read: then the request is sent again. */
export interface MachineList {
  readonly machines: readonly ListedMachine[];
  readonly rest: number;
}
