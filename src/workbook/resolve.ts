/** A cell as its text alone gives it → its entry under the machine in force, and what that machine does not know. */
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
import type { Entry, Facts, FindingCode, Machine } from '../model/index.ts';

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
  /** The machine of that name in the file at `path`, or why there is none; nothing while the file is not loaded. */
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
  /** Found again when first needed: kept for every cell, they would be most of what is kept. */
  private places: ReadonlyMap<string, Place> | undefined;
  /** Whether the cell still counts after what was reported. */
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

  get dropped(): ReadonlySet<string> {
    return this.raw.dropped;
  }

  reported(): number {
    return this.reports;
  }

  report<C extends FindingCode>(path: string, code: C, facts: ReportedFacts<C>, more: Report = {}): void {
    this.add(path, code, facts, more);
  }

  pass(path: string, { code, facts }: Pick<QuantityProblem, 'code' | 'facts'>, more: Report = {}): void {
    // `mark.seen` has no wording: a cell's `seen` is reported before any mark is looked at.
    this.add(path, code as FindingCode, facts, more);
  }

  private add(path: string, code: FindingCode, facts: Facts, more: Report): void {
    const { text, kind } = this.raw;
    this.usable &&= kind !== undefined && (isAside(kind, path) || CELL_KINDS[kind].standsWithout?.(path) === true);
    this.reports++;
    if (this.reports > MOST_PROBLEMS) return;
    this.places ??= readTree(text).places;
    const { places } = this;
    // A single mark is given as if it were a list of one: it stands where the list would.
    const at = places.has(path) ? path : path.slice(0, Math.max(0, path.lastIndexOf('/')));
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
    // Bare numbers are numbers in arithmetic, whatever the machine's units.
    return readExpression(expression, { units: 'mm', calculator: this.surroundings.calculator }, names);
  }

  machineFrom(name: string, path: string): Machine | undefined {
    const found = this.surroundings.machineFrom(name, path);
    if (found === undefined) return undefined;
    if ('machine' in found) return found.machine;
    this.report('from', 'machine.from', { path, reason: found.reason });
    return undefined;
  }
}

/** What is said of it as a whole is said at its first line. */
function unread({ kind, part, spans, text }: RawCell): Entry {
  return {
    kind: 'unread',
    ...(kind !== undefined && { of: kind }),
    ...(part !== undefined && { part }),
    ...(kind && CELL_KINDS[kind].glimpse?.(text)),
    spans: { ...spans, '': firstLine(text) },
  };
}
