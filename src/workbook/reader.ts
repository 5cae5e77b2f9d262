/**
 * Reads a file's text into entries. Each cell is read by its text alone and cached; then, in file order, it is resolved
 * with the machine in force. Cells that were not edited are neither parsed nor resolved again: equal text under the
 * same machine gives the same object, which later layers may use as a key.
 */
import { detached, splitCells, type Split } from '../cells/index.ts';
import { pathTo, type Machine, type Units, type WorkEntry } from '../model/index.ts';
import { createCache } from './cache.ts';
import { isLogName, machineValues, computeWork, type Known, type Threads, type ComputedWork } from './kinds/index.ts';
import { createPass, type Pass, type ReadContext, type Workbook } from './pass.ts';
import { createCalculator, readExpression, type Calculator } from './quantities/index.ts';
import { readRaw, type RawCell } from './raw.ts';
import { createSchemas } from './schemas.ts';
import { resolveCell, type Resolved, type Surroundings } from './resolve.ts';

/** Reads workbooks, with a cache of cells. */
export interface Reader {
  /** Never throws; pure except for the cache of cells. */
  read(text: string, context: ReadContext): Workbook;
  /**
   * The same in slices, for callers that must answer others in between. @param before a pass over the text before an
   * edit, with the same files
   */
  begin(split: Split, context: ReadContext, before?: Pass): Pass;
  /** Computes a work cell with values of the log; names that `log` lacks stay in `later`. */
  work(entry: WorkEntry, machine: Machine | undefined, log: ReadonlyMap<string, Known>): ComputedWork;
}

/** Cells cached in each generation, and characters of their text: some tens of megabytes at most. */
const CACHED_CELLS = 20_000;
const CACHED_LETTERS = 16_000_000;

const CACHED_MACHINES = 100;

/** External tables that reading needs. */
export interface Tables {
  readonly threads: Threads;
  /** Called at the first arithmetic: `expressions`, or its loader. */
  expressions(): Calculator;
}

/** Creates a reader with an empty cache. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: closures over the tables of one reader
export function createReader({ threads, expressions }: Tables): Reader {
  const calculator = createCalculator(expressions);
  const schemaOf = createSchemas(calculator);
  const memory = () => createCache<{ raw: RawCell | undefined }>(CACHED_CELLS, CACHED_LETTERS);
  const cells = { mm: memory(), in: memory() };
  const machines = createCache<Machine>(CACHED_MACHINES, CACHED_LETTERS);
  const meanings = new WeakMap<RawCell, { machine: Machine | undefined; resolved: Resolved }>();

  function raw(text: string, units: Units): RawCell | undefined {
    const before = cells[units].get(text);
    if (before !== undefined) return before.raw;
    const own = detached(text);
    const cell = readRaw(own, units, schemaOf);
    cells[units].set(own, { raw: cell });
    return cell;
  }

  /** An equal machine becomes the same object, so that what depends on it is not read again. */
  function known(resolved: Resolved): Resolved {
    const { entry } = resolved;
    if (entry.kind !== 'machine') return resolved;
    const description = JSON.stringify(entry.machine);
    const machine = machines.get(description) ?? entry.machine;
    machines.set(description, machine);
    return machine === entry.machine ? resolved : { ...resolved, entry: { ...entry, machine } };
  }

  /** The cached entry, if nothing that it depends on has changed. */
  function resolve(cell: RawCell, machine: Machine | undefined, machineFrom: Surroundings['machineFrom']): Resolved {
    const before = meanings.get(cell);
    const borrows = cell.kind === 'machine' && cell.spans[pathTo('from')] !== undefined;
    if (before !== undefined && before.machine === machine && !borrows) return before.resolved;
    const resolved = known(resolveCell(cell, { machine, threads, calculator, machineFrom }));
    if (before !== undefined && borrows && sameMachine(before.resolved, resolved)) return before.resolved;
    meanings.set(cell, { machine, resolved });
    return resolved;
  }

  const begin = (split: Split, context: ReadContext, before?: Pass) =>
    createPass(split, context, { raw, resolve }, before);
  return {
    begin,
    work({ values, results, later = [] }, machine, log) {
      const known = new Map<string, Known>([...(machine ? machineValues(machine) : []), ...log]);
      const unusable = new Set(
        Object.keys(values).filter((name) => !Object.hasOwn(results, name) && !later.includes(name)),
      );
      return computeWork(values, {
        known,
        unusable,
        isOfLog: isLogName(machine, known),
        calculate: (expression, names) => readExpression(expression, { units: 'mm', calculator }, names),
      });
    },
    read(text, context) {
      const pass = begin(splitCells(text), context);
      pass.advance(() => false);
      return pass.workbook();
    },
  };
}

function sameMachine({ entry: a }: Resolved, { entry: b }: Resolved): boolean {
  return a.kind === 'machine' && b.kind === 'machine' && a.machine === b.machine;
}
