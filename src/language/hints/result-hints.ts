/** After every line of a work cell: its result. */
import { pathTo, unitFor, type Units, type WorkEntry, type WorkResult } from '../../model/index.ts';
import { isFolded } from '../book/entries-of.ts';
import type { HintsFor } from './hint.ts';
import { unitsAt } from '../book/units-of.ts';
import { valueInDigits } from '../words/value-words.ts';
import { workResults } from '../book/work-results.ts';

export const resultHints: HintsFor = (book, logged) => {
  const { entry, cell } = logged;
  if (entry.kind !== 'work' || (entry.later && !isFolded(book, cell))) return [];
  const { results, lacks } = workResults(book, { ...logged, entry });
  return Object.keys(entry.values).flatMap((name) => {
    const label = resultLabel(name, results, lacks, unitsAt(book, cell));
    const span = entry.spans[pathTo(name)];
    return span && label !== undefined ? [{ span, label, tooltip: `\`${name}\` ${label}`, inLine: true }] : [];
  });
};

/** `= 4.5 mm`, or why there is no result yet; undefined if the line has an error, which is a finding. */
export function resultLabel(
  name: string,
  results: WorkEntry['results'],
  lacks: Readonly<Record<string, string>>,
  units: Units,
): string | undefined {
  if (Object.hasOwn(results, name)) return `= ${resultInWords(results[name]!, units)}`;
  return Object.hasOwn(lacks, name) ? `not known yet: ${lacks[name]!}` : undefined;
}

/** A result with its uncertainty and unit: `4.5 ± 0.2 mm`. */
export function resultInWords({ value, u, unsure, kind }: WorkResult, units: Units): string {
  const [factor, unit] = unitFor(kind, units);
  const digits = valueInDigits(value * factor, u === undefined ? undefined : u * factor);
  return `${digits}${unit}${unsure ? ', ± not known' : ''}`;
}
