/**
 * One pass over a file, cell by cell. The reader gives what depends on a cell's text alone; here it is resolved with
 * what precedes it. A cell with the same text and context as in the previous pass is reused.
 */
import { firstAt, type Split } from '../cells/index.ts';
import { pathTo, ROOT, type Finding, type LogEntry, type Machine, type Units } from '../model/index.ts';
import { borrowMachine, resolvePath, type Library, type ReadFile } from './borrow.ts';
import { cellFindings } from './cell-findings.ts';
import type { Problem } from './problem.ts';
import type { RawCell } from './raw.ts';
import { withoutClockFix } from './left-hand.ts';
import { remarksIn, type Remark } from './remarks.ts';
import type { Resolved, Surroundings } from './resolve.ts';

/** What reading a file needs besides its text. */
export interface ReadContext {
  /** Path of the file that is read, relative to the root, `/` between folders. */
  readonly file: string;
  /** The other files, by such paths; for a file that could not be read, the reason. */
  readonly files: ReadonlyMap<string, ReadFile>;
}

/** The entries and findings of a workbook. */
export interface Workbook {
  readonly split: Split;
  readonly entries: readonly LogEntry[];
  /** Findings about cells, YAML, shape and names, neither silenced nor sorted: see `visibleFindings`. */
  readonly findings: readonly Finding[];
  /** Comments with instructions for this program: `visibleFindings` applies them. */
  readonly remarks: readonly Remark[];
  /** Files that a machine is taken from, loaded or not. */
  readonly borrows: readonly string[];
  /** Those that `files` lacks: load them and read again. */
  readonly lacks: readonly string[];
}

/** A file that is being read. */
export interface Pass {
  /** Reads until `enough` returns true, at least one cell. @returns whether the file is completely read */
  advance(enough: () => boolean): boolean;
  /** Number of cells that have been read. */
  readonly count: number;
  /** What has been read so far. */
  workbook(): Workbook;
}

/** How a cell is read and resolved; both are cached. */
export interface Readers {
  raw(text: string, units: Units): RawCell | undefined;
  resolve(cell: RawCell, machine: Machine | undefined, machineFrom: Surroundings['machineFrom']): Resolved;
}

export function createPass(split: Split, context: ReadContext, readers: Readers, before?: Pass): Pass {
  return new Reading(split, context, readers, before instanceof Reading ? before : undefined);
}

/** The context of a cell: what precedes it. */
interface Above {
  readonly machine: Machine | undefined;
  /** Whether a machine cell precedes, valid or not, or its lack has been reported. */
  readonly silent: boolean;
  readonly units: Units;
}

/** The results of the cells, in file order. */
interface Collected {
  readonly entries: readonly LogEntry[];
  readonly findings: readonly Finding[];
  readonly remarks: readonly Remark[];
  /** Cells that depend on other files. */
  readonly borrowers: readonly { readonly cell: number }[];
}

type Growing = { readonly [List in keyof Collected]: Collected[List][number][] };

/** Cells read between two calls of `enough`. */
const AT_ONCE = 4;

class Reading implements Pass {
  private readonly split: Split;
  private readonly context: ReadContext;
  private readonly readers: Readers;
  private readonly library: Library;
  private readonly collected: Growing = { entries: [], findings: [], remarks: [], borrowers: [] };
  /** By cell, as far as read. */
  private readonly aboves: Above[] = [];
  private above: Above = { machine: undefined, silent: false, units: 'mm' };
  /** Dropped when all is read, so that passes do not form a chain in memory. */
  private before: Reading | undefined;
  /** From this cell on the cells are the same as in the pass before. */
  private readonly tail: number;

  constructor(split: Split, context: ReadContext, readers: Readers, before: Reading | undefined) {
    this.split = split;
    this.context = context;
    this.readers = readers;
    this.library = libraryOf(context, readers);
    const head = before ? sameFromStart(split, before.split, before.aboves.length) : 0;
    this.tail = before?.isDone ? split.cells.length - sameFromEnd(split, before.split, head) : split.cells.length;
    // It is not recorded which file each cell uses: if one was edited, all are resolved again.
    const edited = before?.collected.borrowers.some(
      ({ cell }) => cell >= head && cell < this.tail - this.moved(before),
    );
    this.collected.remarks.push(...remarksIn(split.head, -1));
    if (!before || edited) return;
    this.before = before;
    before.before = undefined;
    for (const path of before.library.borrows) this.library.borrows.add(path);
    if (head > 0) this.reuse(before, 0, head, 0);
  }

  get count(): number {
    return this.aboves.length;
  }

  private get isDone(): boolean {
    return this.aboves.length === this.split.cells.length;
  }

  private moved(before: Reading): number {
    return this.split.cells.length - before.split.cells.length;
  }

  advance(enough: () => boolean): boolean {
    while (!this.isDone) {
      for (let k = 0; k < AT_ONCE && !this.isDone; k++) this.one();
      if (enough()) break;
    }
    if (this.isDone) this.before = undefined;
    return this.isDone;
  }

  workbook(): Workbook {
    const {
      split,
      collected: { entries, findings, remarks },
      context,
    } = this;
    const borrows = [...this.library.borrows];
    return {
      split,
      entries,
      findings: [...cellFindings(split), ...findings],
      remarks,
      borrows,
      lacks: borrows.filter((path) => !context.files.has(path)),
    };
  }

  private one(): void {
    const {
      before,
      aboves: { length: index },
    } = this;
    const moved = before ? this.moved(before) : 0;
    if (before && index >= this.tail && isSameAbove(before.aboves[index - moved]!, this.above))
      return this.reuse(before, index, this.split.cells.length, moved);
    this.aboves.push(this.above);
    this.read(index);
  }

  /** Reuses the cells from `start` to `end`, whose index was lower by `moved`. */
  private reuse(before: Reading, start: number, end: number, moved: number): void {
    for (const above of before.aboves.slice(start - moved, end - moved)) this.aboves.push(above);
    this.above = before.aboves[end - moved] ?? before.above;
    const copy = <T extends { readonly cell: number }>(into: T[], from: readonly T[]) => {
      for (const one of from.slice(firstAt(from, start - moved), firstAt(from, end - moved)))
        into.push(moved === 0 ? one : { ...one, cell: one.cell + moved });
    };
    copy(this.collected.entries, before.collected.entries);
    copy(this.collected.findings, before.collected.findings);
    copy(this.collected.remarks, before.collected.remarks);
    copy(this.collected.borrowers, before.collected.borrowers);
  }

  private read(index: number): void {
    const {
      collected: { entries, findings, remarks, borrowers },
    } = this;
    const { readings } = this.split.cells[index]!;
    if (readings.length === 0) entries.push({ cell: index, entry: { kind: 'unread', spans: {} } });
    const first = findings.length;
    for (const reading of readings) {
      const { entry, borrows } = this.cell(reading, index);
      if (entry) entries.push({ cell: index, entry });
      if (borrows) borrowers.push({ cell: index });
      remarks.push(...remarksIn(reading, index));
    }
    if (readings.length > 1) findings.push(...once(findings.splice(first)));
  }

  private cell(text: string, index: number): { readonly entry?: LogEntry['entry']; readonly borrows?: boolean } {
    const { machine, silent, units } = this.above;
    const raw = this.readers.raw(text, units);
    if (raw === undefined) return {};
    const { file } = this.context;
    const { entry, problems, needsMachine } = this.readers.resolve(raw, machine, (name, path) =>
      borrowMachine(this.library, file, name, path),
    );
    const photos = outsideRoot(entry, file);
    for (const problem of [...raw.problems, ...problems, ...photos])
      this.collected.findings.push({ ...withoutClockFix(problem, machine), cell: index });
    if (needsMachine && !silent)
      this.collected.findings.push({
        code: 'machine.none',
        cell: index,
        span: raw.spans[raw.kind === undefined ? ROOT : pathTo(raw.kind)] ?? { start: 0, end: 0 },
        facts: {},
      });
    const isMachine = raw.kind === 'machine';
    const now = isMachine ? (entry.kind === 'machine' ? entry.machine : undefined) : machine;
    if (isMachine || needsMachine)
      this.above = { machine: now, silent: true, units: isMachine ? (now?.units ?? units) : units };
    return { entry, borrows: isMachine && raw.spans[pathTo('from')] !== undefined };
  }
}

/** Photos outside the root. This depends on the path of the file, so it is checked in every pass. */
function outsideRoot({ photos = [], spans }: LogEntry['entry'], from: string): Problem[] {
  return photos.flatMap(({ file }, k) => {
    if (resolvePath(from, file) !== undefined) return [];
    const span = [pathTo('photo', k, 'file'), pathTo('photo', k), pathTo('photo', 'file'), pathTo('photo')]
      .map((path) => spans[path])
      .find(Boolean);
    const facts = { text: file, reason: 'it lies outside the root folder' };
    return [{ code: 'photo.unusable', span: span ?? { start: 0, end: 0 }, facts }];
  });
}

/** Defined outside the class: a closure created in a pass would keep the previous pass in memory. */
function libraryOf({ files }: ReadContext, { raw, resolve }: Readers): Library {
  return {
    files,
    borrows: new Set(),
    readRaw: (text) => raw(text, 'mm'),
    resolve: (cell, machineFrom) => resolve(cell, undefined, machineFrom),
  };
}

/** The number of cells that are the same, of the first `most`. */
function sameFromStart({ cells: now }: Split, { cells: then }: Split, most: number): number {
  let same = 0;
  while (same < most && same < now.length && isSame(now[same]!.readings, then[same]!.readings)) same++;
  return same;
}

/** The number of cells that are the same at the end, after the first `head`. */
function sameFromEnd({ cells: now }: Split, { cells: then }: Split, head: number): number {
  const most = Math.min(now.length, then.length) - head;
  let same = 0;
  while (same < most && isSame(now[now.length - 1 - same]!.readings, then[then.length - 1 - same]!.readings)) same++;
  return same;
}

function isSame(one: readonly string[], other: readonly string[]): boolean {
  return one === other || (one.length === other.length && one.every((text, k) => text === other[k]));
}

function isSameAbove(one: Above, other: Above): boolean {
  return one === other || (one.machine === other.machine && one.silent === other.silent && one.units === other.units);
}

/** Both sides of a conflict are read together with the text around it: an equal finding is reported once. */
function once(findings: readonly Finding[]): Finding[] {
  return [
    ...new Map(
      findings.map((finding) => [JSON.stringify([finding.code, finding.span, finding.facts]), finding]),
    ).values(),
  ];
}
