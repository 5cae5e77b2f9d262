/**
 * The lines of a work cell, one after the other: each may use the names above it. Uncertainty is propagated to first order
 * with exact derivatives, inputs independent (JCGM 100:2008, 5.1.2 and 5.1.3): every value keeps its components by input.
 */
import type { WorkEntry, WorkResult } from '../../model/index.ts';
import {
  combinedUncertainty,
  summed,
  type Dimensioned,
  type Names,
  type QuantityProblem,
  type Reading,
  type Result,
} from '../quantities/index.ts';

/** A value by its dotted name, in mm, rad, W or s; `u` is an uncertainty of its own, beside its components. */
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

export interface ComputedWork {
  readonly results: WorkEntry['results'];
  readonly problems: readonly (QuantityProblem & { readonly name: string })[];
  /** Names whose values rest on what the log says. */
  readonly later: readonly string[];
}

/** Of a value that cannot be computed what rests on it is left out in silence. */
export function computeWork(
  values: Readonly<Record<string, string>>,
  { known: given, unusable = new Set(), isOfLog, calculate }: WorkTools,
): ComputedWork {
  const known = new Map<string, Dimensioned>([...given].map(([name, value]) => [name, withOwn(name, value)]));
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
        const result = withOwn(name, value);
        known.set(name, result);
        results[name] = { value: value.value, kind: value.kind, ...uncertainty(result) };
      }
    }
  }
  return { results, problems, later: [...later] };
}

/** With its own ± as one more component: an input that is independent of all others. */
function withOwn(name: string, { value, dimension, components, u }: Known): Dimensioned {
  const all = summed(components, u === undefined ? undefined : new Map([[name, u]]));
  return { value, dimension, ...(all && { components: all }) };
}

/** The combined standard uncertainty as a result states it: nothing where no input has one. */
export function uncertainty({ components, u: own }: Known): Pick<WorkResult, 'u' | 'unsure'> {
  if (!components) return own === undefined ? {} : { u: own };
  const u = Math.hypot(combinedUncertainty(components), own ?? 0);
  return Number.isFinite(u) ? { u } : { unsure: true };
}

/** `M2.slope.right` is one name. */
export function namesIn(expression: string): string[] {
  return expression.match(/[A-Za-z]\w*(?:\.[A-Za-z]\w*)*/g) ?? [];
}
