/**
 * What every kind of cell is made of: a schema for its shape, the meaning of what was read once the machine in force is
 * known, what it is called, and how one is begun. A kind is one file here, listed in `index.ts`; what lower layers ask of a
 * kind is its row in `src/model/kinds.ts`.
 */
import type * as z from 'zod';
import type {
  Aside,
  Entry,
  EntryOf,
  FactName,
  Facts,
  FindingCode,
  Condition,
  Kind,
  Machine,
} from '../../model/index.ts';
import type { Fields } from '../fields.ts';
import type { Names, QuantityProblem, Reading, Result } from '../quantities/index.ts';

type Without<E> = E extends Entry ? Omit<E, 'spans' | keyof Aside> : never;
/** An entry without what every cell may have. */
export type Meaning<K extends Kind = Kind> = Without<EntryOf<K>>;

/** What stands behind a kind's word: a name of the machine's, by its role; the name of the machine; or words. */
export type Subject = 'station' | 'part' | 'machine' | 'words';

/** What the trade's thread names mean; handed in, because the format knows nothing of hardware. */
export interface Threads {
  /** mm per turn */
  pitch(name: string): number | undefined;
  isLeftHanded(name: string): boolean;
  /** For suggestions. */
  names(): readonly string[];
}

export interface CellKind<K extends Kind = Kind, S extends z.ZodType = z.ZodType> {
  readonly subject: Subject;
  /** How a cell of it is begun, as a snippet of the language server protocol; keys in the order in which they are filled in. */
  readonly skeleton: string;
  schema(fields: Fields): S;
  /** Whether the rest of the cell still counts when what stands at this path cannot be read. */
  standsWithout?(path: string): boolean;
  /** Nothing where the cell cannot be used: why has then been reported, here or where the machine is described. */
  meaning(value: z.output<S>, cell: Cell): Meaning<K> | undefined;
  /** What it is about, behind its word in lists: `M2`, `spring service`; empty where the word says it all. */
  about(entry: EntryOf<K>): string;
  /** What counts of the text of a cell that cannot be read whole. */
  glimpse?(text: string): { readonly found?: Condition };
}

/** The cell whose meaning is sought. Paths are keys and indexes joined by `/`. */
export interface Cell {
  report<C extends FindingCode>(path: string, code: C, facts: ReportedFacts<C>, more?: Report): void;
  /** The same of what a reader of scalars found, whose codes and facts go together by its own tests. */
  pass(path: string, problem: Pick<QuantityProblem, 'code' | 'facts'>, more?: Report): void;
  /** Paths of what the cell stands without. */
  readonly dropped: ReadonlySet<string>;
  /** How many errors were reported so far. */
  reported(): number;
  /** The machine in force, for what cannot be read without one. The first cell that lacks it says so. */
  machine(): Machine | undefined;
  /** The same, for what can do without. */
  readonly inForce: Machine | undefined;
  /** Arithmetic over names and units, in mm, rad, W and s. */
  calculate(expression: string, names: Names): Reading<Result>;
  /** A machine that another file describes; nothing where it could not be had, and why has been reported. */
  machineFrom(name: string, path: string): Machine | undefined;
  readonly threads: Threads;
}

/** `text` may be left out: it is then what stands at the path. */
export type ReportedFacts<C extends FindingCode> = { readonly [Name in Exclude<FactName<C>, 'text'>]: string } & Facts;

export interface Report {
  readonly suggestion?: string | undefined;
  /** Report at the key and not at its value. */
  readonly atKey?: boolean;
  /** Offsets within the value's own text. */
  readonly from?: number;
  readonly to?: number;
  /** Put in place of what the offsets enclose. */
  readonly fix?: string | undefined;
}
