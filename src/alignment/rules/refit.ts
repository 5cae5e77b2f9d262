/** A lens that was out goes back to work with nothing said of how it was put back. */
import type { Finding, LogEntry } from '../../model/index.ts';
import type { State } from '../state.ts';
import { station } from '../system.ts';
import { listed } from '../words.ts';
import { at, isReturn } from './rule.ts';

const WANTED = ['flat side', 'ring', 'witness', 'hose'] as const;

export function refit(logged: LogEntry, { system, practice }: State): Finding[] {
  if (!isReturn(logged) || !system) return [];
  return [...practice.refits].flatMap(([part, noted]) => {
    const element = station(system, part)?.element;
    if (element?.kind !== 'lens') return [];
    // A meniscus and a biconvex lens have no flat side.
    const isPlano = (element.shape ?? 'plano-convex') === 'plano-convex';
    const missing = WANTED.filter((item) => !noted.includes(item) && (item !== 'flat side' || isPlano));
    return missing.length > 0 ? [at(logged, 'release', 'release.refit', { part, missing: listed(missing) })] : [];
  });
}
