/**
 * Computes the lines of a work cell in order: each may use the names above it. Uncertainty is propagated to first order
 * with exact derivatives and independent inputs (JCGM 100:2008, 5.1.2 and 5.1.3): every value carries its components by
 * input.
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

/** A value by its dotted name, in mm, rad, W or s; `u` is an uncertainty of its own, in addition to its components. */
export interface Known extends Dimensioned {
  readonly u?: number | undefined;
}

export interface WorkTools {
  readonly known: ReadonlyMap<string, Known>;
  /** Lines with an error that is already reported. */
  readonly unusable?: ReadonlySet<string>;
  /** Whether a name is a value of the log, which is not known here. */
  isOfLog(name: string): boolean;
  calculate(expression: string, names: Names): Reading<Result>;
}

/** The results of a work cell. */
export interface ComputedWork {
  readonly results: WorkEntry['results'];
  readonly problems: readonly (QuantityProblem & { readonly name: string })[];
  /** Names whose values depend on the log. */
  readonly later: readonly string[];
}

/** A line that depends on a failed line is left out without another report. */
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

/** Adds its own ± as a component: an input that is independent of all others. */
function withOwn(name: string, { value, dimension, components, u }: Known): Dimensioned {
  const all = summed(components, u === undefined ? undefined : new Map([[name, u]]));
  return { value, dimension, ...(all && { components: all }) };
}

/** The combined standard uncertainty of a result; empty if no input has one. */
export function uncertainty({ components, u: own }: Known): Pick<WorkResult, 'u' | 'unsure'> {
  if (!components) return own === undefined ? {} : { u: own };
  const u = Math.hypot(combinedUncertainty(components), own ?? 0);
  return Number.isFinite(u) ? { u } : { unsure: true };
}

/** `M2.slope.right` is one name. */
export function namesIn(expression: string): string[] {
  return expression.match(/[A-Za-z]\w*(?:\.[A-Za-z]\w*)*/g) ?? [];
}
