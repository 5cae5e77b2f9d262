/** Resolves a cell with the machine in force into its entry, and reports names that the machine does not have. */
import { isAside, type RawCell } from './raw.ts';
import { onText, spanAt } from './issues.ts';
import { firstLine } from './stretches.ts';
import { readTree } from './read-tree.ts';
import type { Place } from './tree.ts';
import {
  aside,
  CELL_KINDS,
  checkAmended,
  type Cell,
  type Report,
  type ReportedFacts,
  type Threads,
} from './kinds/index.ts';
import { MOST_PROBLEMS, type Problem } from './problem.ts';
import {
  readExpression,
  type Calculator,
  type Names,
  type QuantityProblem,
  type Reading,
  type Result,
} from './quantities/index.ts';
import {
  parentOf,
  pathTo,
  ROOT,
  type Entry,
  type Facts,
  type FindingCode,
  type Machine,
  type Path,
} from '../model/index.ts';

export interface Resolved {
  readonly entry: Entry;
  readonly problems: readonly Problem[];
  /** It needs a machine, and none is in force. */
  readonly needsMachine: boolean;
}

export interface Surroundings {
  readonly machine: Machine | undefined;
  readonly threads: Threads;
  readonly calculator: Calculator;
  /** The machine of that name in the file at `path`, or why there is none; undefined until the file is loaded. */
  machineFrom(name: string, path: string): { readonly machine: Machine } | { readonly reason: string } | undefined;
}

export function resolveCell(raw: RawCell, surroundings: Surroundings): Resolved {
  const { kind, value } = raw;
  if (kind === undefined || value === undefined) return { entry: unread(raw), problems: [], needsMachine: false };
  const cell = new ResolvedCell(raw, surroundings);
  const meaning = CELL_KINDS[kind].meaning(value, cell);
  const beside = aside(value);
  checkAmended(beside, cell);
  const { problems, needsMachine, usable } = cell;
  if (meaning === undefined || !usable) return { entry: unread(raw), problems, needsMachine };
  return { entry: { ...meaning, ...beside, spans: raw.spans } as Entry, problems, needsMachine };
}

class ResolvedCell implements Cell {
  readonly problems: Problem[] = [];
  needsMachine = false;
  private reports = 0;
  /** Computed on demand: caching it for every cell would take most of the memory. */
  private places: ReadonlyMap<Path, Place> | undefined;
  /** Whether the cell can still be used after the reports. */
  usable = true;
  private readonly raw: RawCell;
  private readonly surroundings: Surroundings;

  constructor(raw: RawCell, surroundings: Surroundings) {
    this.raw = raw;
    this.surroundings = surroundings;
  }

  get threads(): Threads {
    return this.surroundings.threads;
  }

  get inForce(): Machine | undefined {
    return this.surroundings.machine;
  }

  get dropped(): ReadonlySet<Path> {
    return this.raw.dropped;
  }

  reported(): number {
    return this.reports;
  }

  report<C extends FindingCode>(path: Path, code: C, facts: ReportedFacts<C>, more: Report = {}): void {
    this.add(path, code, facts, more);
  }

  pass(path: Path, { code, facts }: Pick<QuantityProblem, 'code' | 'facts'>, more: Report = {}): void {
    // `mark.seen` has no message: a cell's `seen` is reported before any mark is read.
    this.add(path, code as FindingCode, facts, more);
  }

  private add(path: Path, code: FindingCode, facts: Facts, more: Report): void {
    const { text, kind } = this.raw;
    this.usable &&= kind !== undefined && (isAside(kind, path) || CELL_KINDS[kind].isOptional?.(path) === true);
    this.reports++;
    if (this.reports > MOST_PROBLEMS) return;
    this.places ??= readTree(text).places;
    const { places } = this;
    // A single mark is treated as a list of one: its place is that of the list.
    const at = places.has(path) ? path : parentOf(path);
    const all = more.suggestion === undefined ? facts : { ...facts, suggestion: more.suggestion };
    const key = more.atKey === true ? places.get(at)?.key : undefined;
    if (key !== undefined) {
      const fix =
        more.suggestion === undefined ? {} : { suggestion: more.suggestion, fix: { span: key, text: more.suggestion } };
      this.problems.push({ code, span: key, facts, ...fix });
    } else {
      const { start, end } = spanAt(at, places);
      const { from = 0, to = end - start } = more;
      this.problems.push(onText(code, all, at, { text, places }, { from, to, fix: more.suggestion }));
    }
  }

  machine(): Machine | undefined {
    const { machine } = this.surroundings;
    this.needsMachine ||= machine === undefined;
    return machine;
  }

  calculate(expression: string, names: Names): Reading<Result> {
    // In arithmetic, numbers without a unit are numbers, whatever the machine's units.
    return readExpression(expression, { units: 'mm', calculator: this.surroundings.calculator }, names);
  }

  machineFrom(name: string, path: string): Machine | undefined {
    const source = this.surroundings.machineFrom(name, path);
    if (source === undefined) return undefined;
    if ('machine' in source) return source.machine;
    this.report(pathTo('from'), 'machine.from', { path, reason: source.reason });
    return undefined;
  }
}

/** Findings about the whole cell are at its first line. */
function unread({ kind, part, spans, text }: RawCell): Entry {
  return {
    kind: 'unread',
    ...(kind !== undefined && { of: kind }),
    ...(part !== undefined && { part }),
    ...(kind && CELL_KINDS[kind].readPartly?.(text)),
    spans: { ...spans, [ROOT]: firstLine(text) },
  };
}
