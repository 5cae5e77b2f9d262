/**
 * One pass over a file, cell by cell. What a cell's text gives is asked of the reader; here it gets its meaning from what
 * stands above. A cell whose text and surroundings are as they were in the pass before is taken over from it.
 */
import { firstAt, type Split } from '../cells/index.ts';
import type { Finding, LogEntry, Machine, Units } from '../model/index.ts';
import { borrowMachine, resolvePath, type Library, type ReadFile } from './borrow.ts';
import { cellFindings } from './cell-findings.ts';
import type { Problem } from './problem.ts';
import type { RawCell } from './raw.ts';
import { withoutClockFix } from './left-hand.ts';
import { remarksIn, type Remark } from './remarks.ts';
import type { Resolved, Surroundings } from './resolve.ts';

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
  /** Comments that speak to this program: `settle` listens to them. */
  readonly remarks: readonly Remark[];
  /** Files that a machine is taken from, there or not. */
  readonly borrows: readonly string[];
  /** Those of them that `files` does not hold: load them and read again. */
  readonly lacks: readonly string[];
}

/** A file that is being read. */
export interface Pass {
  /** Reads on until `enough`, a cell at least; whether the file is read. */
  advance(enough: () => boolean): boolean;
  /** How many cells have been read. */
  readonly count: number;
  /** What has been read so far. */
  workbook(): Workbook;
}

/** How a cell is read and understood; both remember. */
export interface Readers {
  raw(text: string, units: Units): RawCell | undefined;
  resolve(cell: RawCell, machine: Machine | undefined, machineFrom: Surroundings['machineFrom']): Resolved;
}

export function createPass(split: Split, context: ReadContext, readers: Readers, before?: Pass): Pass {
  return new Reading(split, context, readers, before instanceof Reading ? before : undefined);
}

/** What stands above a cell and gives it its meaning. */
interface Above {
  readonly machine: Machine | undefined;
  /** Whether a machine cell stands above, read or not, or its lack has been told. */
  readonly silent: boolean;
  readonly units: Units;
}

/** What cells have said, in file order. */
interface Said {
  readonly entries: readonly LogEntry[];
  readonly findings: readonly Finding[];
  readonly remarks: readonly Remark[];
  /** Those that depend on other files. */
  readonly borrowers: readonly { readonly cell: number }[];
}

type Growing = { readonly [List in keyof Said]: Said[List][number][] };

/** Cells between two looks at the clock. */
const AT_ONCE = 4;

class Reading implements Pass {
  private readonly split: Split;
  private readonly context: ReadContext;
  private readonly readers: Readers;
  private readonly library: Library;
  private readonly said: Growing = { entries: [], findings: [], remarks: [], borrowers: [] };
  /** By cell, as far as they have been read. */
  private readonly aboves: Above[] = [];
  private above: Above = { machine: undefined, silent: false, units: 'mm' };
  /** Let go when all is read: a pass must not hold every one before it. */
  private before: Reading | undefined;
  /** From here on the cells are as before. */
  private readonly tail: number;

  constructor(split: Split, context: ReadContext, readers: Readers, before: Reading | undefined) {
    this.split = split;
    this.context = context;
    this.readers = readers;
    this.library = libraryOf(context, readers);
    const head = before ? sameFromStart(split, before.split, before.aboves.length) : 0;
    this.tail = before?.isDone ? split.cells.length - sameFromEnd(split, before.split, head) : split.cells.length;
    // Which file each borrower asked for is not known: where one was edited, all are asked again.
    const edited = before?.said.borrowers.some(({ cell }) => cell >= head && cell < this.tail - this.moved(before));
    this.said.remarks.push(...remarksIn(split.head, -1));
    if (!before || edited) return;
    this.before = before;
    before.before = undefined;
    for (const path of before.library.borrows) this.library.borrows.add(path);
    if (head > 0) this.takeOver(before, 0, head, 0);
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
      said: { entries, findings, remarks },
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
      return this.takeOver(before, index, this.split.cells.length, moved);
    this.aboves.push(this.above);
    this.read(index);
  }

  /** The cells from `start` to `end` are as they were, `moved` cells before. */
  private takeOver(before: Reading, start: number, end: number, moved: number): void {
    for (const above of before.aboves.slice(start - moved, end - moved)) this.aboves.push(above);
    this.above = before.aboves[end - moved] ?? before.above;
    const take = <T extends { readonly cell: number }>(into: T[], from: readonly T[]) => {
      for (const one of from.slice(firstAt(from, start - moved), firstAt(from, end - moved)))
        into.push(moved === 0 ? one : { ...one, cell: one.cell + moved });
    };
    take(this.said.entries, before.said.entries);
    take(this.said.findings, before.said.findings);
    take(this.said.remarks, before.said.remarks);
    take(this.said.borrowers, before.said.borrowers);
  }

  private read(index: number): void {
    const {
      said: { entries, findings, remarks, borrowers },
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
      this.said.findings.push({ ...withoutClockFix(problem, machine), cell: index });
    if (needsMachine && !silent)
      this.said.findings.push({
        code: 'machine.none',
        cell: index,
        span: raw.spans[raw.kind ?? ''] ?? { start: 0, end: 0 },
        facts: {},
      });
    const isMachine = raw.kind === 'machine';
    const now = isMachine ? (entry.kind === 'machine' ? entry.machine : undefined) : machine;
    if (isMachine || needsMachine)
      this.above = { machine: now, silent: true, units: isMachine ? (now?.units ?? units) : units };
    return { entry, borrows: isMachine && raw.spans['from'] !== undefined };
  }
}

/** Photos that lead out of the root; it depends on where the file lies, and so is asked of every pass. */
function outsideRoot({ photos = [], spans }: LogEntry['entry'], from: string): Problem[] {
  return photos.flatMap(({ file }, k) => {
    if (resolvePath(from, file) !== undefined) return [];
    const span = [`photo/${k}/file`, `photo/${k}`, 'photo/file', 'photo'].map((path) => spans[path]).find(Boolean);
    const facts = { text: file, reason: 'it lies outside the root folder' };
    return [{ code: 'photo.unusable', span: span ?? { start: 0, end: 0 }, facts }];
  });
}

/** Made outside of the pass: a function that is made within it holds all that is at hand there, the pass before too. */
function libraryOf({ files }: ReadContext, { raw, resolve }: Readers): Library {
  return {
    files,
    borrows: new Set(),
    readRaw: (text) => raw(text, 'mm'),
    resolve: (cell, machineFrom) => resolve(cell, undefined, machineFrom),
  };
}

/** How many cells are as they were, of the first `most`. */
function sameFromStart({ cells: now }: Split, { cells: then }: Split, most: number): number {
  let same = 0;
  while (same < most && same < now.length && isSame(now[same]!.readings, then[same]!.readings)) same++;
  return same;
}

/** Of those behind the first `head`. */
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

/** Both sides of a conflict are read with what stands around it: the same is said once. */
function once(findings: readonly Finding[]): Finding[] {
  return [
    ...new Map(
      findings.map((finding) => [JSON.stringify([finding.code, finding.span, finding.facts]), finding]),
    ).values(),
  ];
}
