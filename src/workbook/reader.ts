/**
 * A file's text → its entries. Each cell is read by its text alone and remembered; then, in file order, it is given
 * its meaning by the machine in force. What was not edited is neither parsed nor resolved again: equal text under the
 * same machine gives the very same entry, which later layers may use as a key.
 */
import { detached, splitCells, type Split } from '../cells/index.ts';
import type { Machine, Units, WorkEntry } from '../model/index.ts';
import { createCache } from './cache.ts';
import { isLogName, machineValues, computeWork, type Known, type Threads, type ComputedWork } from './kinds/index.ts';
import { createPass, type Pass, type ReadContext, type Workbook } from './pass.ts';
import { createCalculator, readExpression, type Calculator } from './quantities/index.ts';
import { readRaw, type RawCell } from './raw.ts';
import { createSchemas } from './schemas.ts';
import { resolveCell, type Resolved, type Surroundings } from './resolve.ts';

export interface Reader {
  /** Never throws; pure but for the memory of cells. */
  read(text: string, context: ReadContext): Workbook;
  /**
   * The same, a few cells at a time, for who must answer others in between. `before` is a pass over the text as it was
   * before an edit, with the same files.
   */
  begin(split: Split, context: ReadContext, before?: Pass): Pass;
  /** The lines of a work cell once more, with what the log says: its names that are missing in `log` stay for later. */
  work(entry: WorkEntry, machine: Machine | undefined, log: ReadonlyMap<string, Known>): ComputedWork;
}

/** Cells remembered in either generation, and characters of their text: some tens of megabytes at most. */
const CACHED_CELLS = 20_000;
const CACHED_LETTERS = 16_000_000;

const CACHED_MACHINES = 100;

/** What reading rests on and does not hold itself. */
export interface Tables {
  readonly threads: Threads;
  /** Called when the first arithmetic is met: `expressions`, or what loads it. */
  expressions(): Calculator;
}

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
    const found = readRaw(own, units, schemaOf);
    cells[units].set(own, { raw: found });
    return found;
  }

  /** A machine that is described as before is the same: what rests on it need not be read again. */
  function known(resolved: Resolved): Resolved {
    const { entry } = resolved;
    if (entry.kind !== 'machine') return resolved;
    const description = JSON.stringify(entry.machine);
    const machine = machines.get(description) ?? entry.machine;
    machines.set(description, machine);
    return machine === entry.machine ? resolved : { ...resolved, entry: { ...entry, machine } };
  }

  /** The one that was found before, where nothing that it rests on has changed. */
  function resolve(cell: RawCell, machine: Machine | undefined, machineFrom: Surroundings['machineFrom']): Resolved {
    const before = meanings.get(cell);
    const borrows = cell.kind === 'machine' && cell.spans['from'] !== undefined;
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
