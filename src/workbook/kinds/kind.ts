/**
 * The definition of a kind of cell: a schema for its shape, its meaning under the machine in force, its name in lists,
 * and its skeleton. Each kind is one file here, listed in `index.ts`; the properties that other layers need are its row
 * in `src/model/kinds.ts`.
 */
import type * as z from 'zod';
import type {
  Aside,
  Condition,
  Entry,
  EntryOf,
  FactName,
  Facts,
  FindingCode,
  Kind,
  Machine,
  Path,
} from '../../model/index.ts';
import type { Fields } from '../fields.ts';
import type { Common } from './common.ts';
import type { Names, QuantityProblem, Reading, Result } from '../quantities/index.ts';

type Without<E> = E extends Entry ? Omit<E, 'spans' | keyof Aside> : never;
/** An entry without the common keys. */
export type Meaning<K extends Kind = Kind> = Without<EntryOf<K>>;

/** The value of a kind's word: a name of the machine's, by its role; the name of the machine; or free text. */
export type Subject = 'station' | 'part' | 'machine' | 'words';

/** The standard thread names; passed in, because the format does not depend on hardware tables. */
export interface Threads {
  /** mm per turn */
  pitch(name: string): number | undefined;
  isLeftHanded(name: string): boolean;
  /** For suggestions. */
  names(): readonly string[];
}

/** The definition of one kind of cell. */
export interface CellKind<K extends Kind = Kind, S extends z.ZodType = z.ZodType> {
  readonly subject: Subject;
  /** A new cell as an LSP snippet, keys in the order in which they are filled in. */
  readonly skeleton: string;
  schema(common: Common, fields: Fields): S;
  /** Whether the rest of the cell is used if the value at this path has an error. */
  isOptional?(path: Path): boolean;
  /** Undefined if the cell cannot be used, which is already reported, here or at the machine cell. */
  meaning(value: z.output<S>, cell: Cell): Meaning<K> | undefined;
  /** The subject after the kind in lists: `M2`, `spring service`; empty if there is none. */
  about(entry: EntryOf<K>): string;
  /** What can be read from the text of a cell with errors. */
  readPartly?(text: string): { readonly found?: Condition };
}

/** The cell being resolved. */
export interface Cell {
  report<C extends FindingCode>(path: Path, code: C, facts: ReportedFacts<C>, more?: Report): void;
  /** The same for a problem of a scalar reader, whose tests check that its facts fit its code. */
  pass(path: Path, problem: Pick<QuantityProblem, 'code' | 'facts'>, more?: Report): void;
  /** Paths of values that were left out because of errors. */
  readonly dropped: ReadonlySet<Path>;
  /** Number of errors reported so far. */
  reported(): number;
  /** The machine in force, if the cell needs one. The first cell that lacks it reports so. */
  machine(): Machine | undefined;
  /** The same, if the cell does not need one. */
  readonly inForce: Machine | undefined;
  /** Evaluates arithmetic with names and units, in mm, rad, W and s. */
  calculate(expression: string, names: Names): Reading<Result>;
  /** A machine from another file; undefined if it could not be read, which is then reported. */
  machineFrom(name: string, path: string): Machine | undefined;
  readonly threads: Threads;
}

/** `text` is optional: the default is the text at the path. */
export type ReportedFacts<C extends FindingCode> = { readonly [Name in Exclude<FactName<C>, 'text'>]: string } & Facts;

/** Where and with which suggestion a finding is reported. */
export interface Report {
  readonly suggestion?: string | undefined;
  /** Report at the key instead of its value. */
  readonly atKey?: boolean;
  /** Offsets within the value's own text. */
  readonly from?: number;
  readonly to?: number;
  /** Replaces the text between the offsets. */
  readonly fix?: string | undefined;
}
