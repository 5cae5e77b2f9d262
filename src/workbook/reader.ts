/**
 * A file's text → its entries. Each cell is read by its text alone and remembered; then, in file order, it is given
 * its meaning by the machine in force. What was not edited is neither parsed nor resolved again: equal text under the
 * same machine gives the very same entry, which later layers may use as a key.
 */
import { splitCells, type Split } from '../cells/index.ts';
import type { Finding, LogEntry, Machine, Units } from '../model/index.ts';
import { borrowMachine, type Library, type ReadFile } from './borrow.ts';
import { createCache } from './cache.ts';
import { cellFindings } from './cell-findings.ts';
import type { Threads } from './kinds/index.ts';
import { createCalculator, type Calculator } from './quantities/index.ts';
import { readRaw, type RawCell } from './raw.ts';
import { createSchemas } from './schemas.ts';
import { resolveCell, type Resolved, type Surroundings } from './resolve.ts';

export interface ReadContext {
  /** Path of the file that is read, relative to the root, `/` between folders. */
  readonly file: string;
  /** The other files, by the same kind of path; a file that could not be had stands there with the reason. */
  readonly files: ReadonlyMap<string, ReadFile>;
}

export interface Workbook {
  readonly split: Split;
  readonly entries: readonly LogEntry[];
  /** What cells, YAML, shape and names have to say, unsilenced and unsorted: see `settle`. */
  readonly findings: readonly Finding[];
  /** Files that a machine is taken from, there or not. */
  readonly borrows: readonly string[];
  /** Those of them that `files` does not hold: load them and read again. */
  readonly lacks: readonly string[];
}

export interface Reader {
  /** Never throws; pure but for the memory of cells. */
  read(text: string, context: ReadContext): Workbook;
  /** The same, a few cells at a time, for who must answer others in between. */
  begin(split: Split, context: ReadContext): Pass;
}

/** A file that is being read. */
export interface Pass {
  /** Reads on until `enough`, a cell at least; whether the file is read. */
  advance(enough: () => boolean): boolean;
  /** What has been read so far. */
  workbook(): Workbook;
}

/** Cells remembered in either generation, and characters of their text: some tens of megabytes at most. */
const CACHED_CELLS = 20_000;
const CACHED_LETTERS = 16_000_000;

/** What reading rests on and does not hold itself. */
export interface Tables {
  readonly threads: Threads;
  /** Called when the first arithmetic is met: `expressions`, or what loads it. */
  expressions(): Calculator;
}

export function createReader({ threads, expressions }: Tables): Reader {
  const calculator = createCalculator(expressions);
  const schemaOf = createSchemas(calculator);
  const memory = () => createCache<{ raw: RawCell | undefined }>(CACHED_CELLS, CACHED_LETTERS);
  const cells = { mm: memory(), in: memory() };
  const meanings = new WeakMap<RawCell, { machine: Machine | undefined; resolved: Resolved }>();

  function raw(text: string, units: Units): RawCell | undefined {
    let found = cells[units].get(text);
    if (found === undefined) cells[units].set(text, (found = { raw: readRaw(text, units, schemaOf) }));
    return found.raw;
  }

  /** The one that was found before, where nothing that it rests on has changed. */
  function resolve(cell: RawCell, machine: Machine | undefined, machineFrom: Surroundings['machineFrom']): Resolved {
    const before = meanings.get(cell);
    const borrows = cell.kind === 'machine' && cell.spans['from'] !== undefined;
    if (before !== undefined && before.machine === machine && !borrows) return before.resolved;
    const resolved = resolveCell(cell, { machine, threads, calculator, machineFrom });
    if (before !== undefined && borrows && sameMachine(before.resolved, resolved)) return before.resolved;
    meanings.set(cell, { machine, resolved });
    return resolved;
  }

  const begin = (split: Split, context: ReadContext) => new Reading(split, raw, resolve, context);
  return {
    begin,
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

/** Both sides of a conflict are read with what stands around it: the same is said once. */
function once(findings: readonly Finding[]): Finding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify([finding.code, finding.span, finding.facts]), finding])).values()];
}

/** One pass over a file. */
class Reading implements Pass {
  private readonly split: Split;
  private next = 0;
  private readonly raw: (text: string, units: Units) => RawCell | undefined;
  private readonly resolve: (cell: RawCell, machine: Machine | undefined, machineFrom: Surroundings['machineFrom']) => Resolved;
  private readonly context: ReadContext;
  private readonly library: Library;
  private readonly entries: LogEntry[] = [];
  private readonly findings: Finding[] = [];
  private machine: Machine | undefined;
  /** Whether a machine cell stands above, read or not, or its lack has been told. */
  private silent = false;
  private units: Units = 'mm';

  constructor(split: Split, raw: Reading['raw'], resolve: Reading['resolve'], context: ReadContext) {
    this.split = split;
    this.raw = raw;
    this.resolve = resolve;
    this.context = context;
    this.library = {
      files: context.files,
      borrows: new Set(),
      readRaw: (text) => raw(text, 'mm'),
      resolve: (cell, machineFrom) => resolve(cell, undefined, machineFrom),
    };
  }

  advance(enough: () => boolean): boolean {
    const { cells } = this.split;
    while (this.next < cells.length) {
      this.cellAt(this.next++);
      if (enough()) break;
    }
    return this.next >= cells.length;
  }

  workbook(): Workbook {
    const borrows = [...this.library.borrows];
    const lacks = borrows.filter((path) => !this.context.files.has(path));
    return { split: this.split, entries: this.entries, findings: [...cellFindings(this.split), ...this.findings], borrows, lacks };
  }

  private cellAt(index: number): void {
    const { readings } = this.split.cells[index]!;
    if (readings.length === 0) this.entries.push({ cell: index, entry: { kind: 'unread', spans: {} } });
    const before = this.findings.length;
    for (const reading of readings) this.cell(reading, index);
    if (readings.length > 1) this.findings.push(...once(this.findings.splice(before)));
  }

  private cell(text: string, index: number): void {
    const raw = this.raw(text, this.units);
    if (raw === undefined) return;
    const { file } = this.context;
    const resolved = this.resolve(raw, this.machine, (name, path) => borrowMachine(this.library, file, name, path));
    const { entry, problems, needsMachine } = resolved;
    this.entries.push({ cell: index, entry });
    for (const problem of [...raw.problems, ...problems]) this.findings.push({ ...problem, cell: index });
    if (needsMachine && !this.silent) this.findings.push({ code: 'machine.none', cell: index, span: raw.spans[raw.kind ?? ''] ?? { start: 0, end: 0 }, facts: {} });
    this.silent ||= needsMachine || raw.kind === 'machine';
    if (raw.kind !== 'machine') return;
    this.machine = entry.kind === 'machine' ? entry.machine : undefined;
    this.units = this.machine?.units ?? this.units;
  }
}
