/**
 * The lines of a work cell, one after the other: each may use the names above it. Uncertainty goes along: every value
 * knows how far it moves when an input moves by its standard uncertainty, and the squares are summed (first order, inputs
 * independent; JCGM 100:2008, 5.1.2). So a difference of a value and itself is certain.
 */
import type { WorkEntry } from '../../model/index.ts';
import type { Dimensioned, Names, QuantityProblem, Reading, Result } from '../quantities/index.ts';

/** A value by its dotted name, in mm, rad, W or s. */
export interface Known extends Dimensioned {
  readonly u?: number | undefined;
}

export interface WorkTools {
  readonly known: ReadonlyMap<string, Known>;
  /** Lines that are wrong, for a reason that was told already. */
  readonly unusable?: ReadonlySet<string>;
  /** Whether a name stands for what the log says, which is not known here. */
  isOfLog(name: string): boolean;
  calculate(expression: string, names: Names): Reading<Result>;
}

export interface WorkedOut {
  readonly results: WorkEntry['results'];
  readonly problems: readonly (QuantityProblem & { readonly name: string })[];
  /** Names whose values rest on what the log says. */
  readonly later: readonly string[];
}

/** How far a value moves with each input. */
type Moves = ReadonlyMap<string, number>;

/** A value that rests on more is told without uncertainty: a hostile cell is not worked out ten thousand times. */
const MOST_INPUTS = 16;

/** Of a value that cannot be worked out what rests on it is left out in silence. */
export function workedOut(values: Readonly<Record<string, string>>, { known: given, unusable = new Set(), isOfLog, calculate }: WorkTools): WorkedOut {
  const known = new Map<string, Dimensioned>(given);
  const moves = new Map<string, Moves>([...given].flatMap(([name, { u }]) => (u === undefined ? [] : [[name, new Map([[name, u]])]])));
  const [failed, later] = [new Set<string>(), new Set<string>()];
  const problems: (QuantityProblem & { name: string })[] = [];
  const results: Record<string, WorkEntry['results'][string]> = {};
  for (const [name, expression] of Object.entries(values)) {
    const words = namesIn(expression);
    if (unusable.has(name)) failed.add(name);
    else if (words.some((word) => isOfLog(word) || later.has(word))) later.add(name);
    else if (words.some((word) => failed.has(word))) failed.add(name);
    else {
      const { value, problems: own } = calculate(expression, known);
      problems.push(...own.map((problem) => ({ ...problem, name })));
      if (value === undefined) failed.add(name);
      else {
        const moved = movesOf(name, value, words);
        known.set(name, value);
        moves.set(name, moved ?? new Map());
        const u = moved && moved.size > 0 ? Math.hypot(...moved.values()) : undefined;
        results[name] = { value: value.value, kind: value.kind, ...(u !== undefined && Number.isFinite(u) && { u }) };
      }
    }
  }
  return { results, problems, later: [...later] };

  function movesOf(name: string, { value, u }: Result, words: readonly string[]): Moves | undefined {
    const inputs = new Set(words.flatMap((word) => [...(moves.get(word)?.keys() ?? [])]));
    if (inputs.size > MOST_INPUTS) return undefined;
    const found = new Map(u === undefined ? [] : [[name, u]]);
    for (const input of inputs) {
      const after = calculate(values[name]!, shifted(input)).value;
      if (after) found.set(input, after.value - value);
    }
    return found;
  }

  /** The names as they would be with this input farther by its uncertainty. */
  function shifted(input: string): Names {
    return {
      keys: () => known.keys(),
      get(name) {
        const own = known.get(name);
        const move = moves.get(name)?.get(input);
        return own && move !== undefined ? { ...own, value: own.value + move } : own;
      },
    };
  }
}

/** `M2.slope.right` is one name. */
export function namesIn(expression: string): string[] {
  return expression.match(/[A-Za-z]\w*(?:\.[A-Za-z]\w*)*/g) ?? [];
}
