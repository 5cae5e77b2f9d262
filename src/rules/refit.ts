/** The machine is released with a lens that was out, and the log does not show that it was refitted right. */
import { findingAt, lookup, pathTo, type CareEntry, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { station, type Station } from '../machine/index.ts';
import { shortened, listed, nameInCell } from '../words/index.ts';
import { isReturn } from './rule.ts';

type Noted = NonNullable<CareEntry['refit']>;
type Item = keyof Noted;

/** Accepted values; the first one is used in a generated cell. Any other value is reported. */
const RIGHT = {
  ring: ['snug', 'hand tight', 'finger tight'],
  witness: ['lined up', 'in line', 'aligned'],
  hose: ['refitted', 'fitted', 'on', 'back on', 'on again', 'connected'],
} as const satisfies Partial<Record<Item, readonly string[]>>;

export function refit(logged: LogEntry, { system, practice }: State): Finding[] {
  if (!isReturn(logged) || !system) return [];
  return [...practice.refits].flatMap(([part, noted]) => {
    const lens = station(system, part);
    const doubtful =
      lens?.element.kind === 'lens'
        ? Object.entries(requiredItems(lens)).filter(([item, right]) => !isRight(lookup(noted, item), right))
        : [];
    if (doubtful.length === 0) return [];
    const what = listed(doubtful.map(([item]) => itemInWords(item, lookup(noted, item))));
    const cell = `care: ${nameInCell(part)}\ndid: inspected\nrefit: {${doubtful.map(([item, right]) => `${item}: ${right[0]}`).join(', ')}}\n`;
    return [findingAt(logged, pathTo('release'), 'release.refit', { part, what, cell })];
  });
}

/** The flat side faces the work; a meniscus and a biconvex lens have none. */
function requiredItems({ element, runs }: Station): Readonly<Record<string, readonly string[]>> {
  const isPlano = (element.shape ?? 'plano-convex') === 'plano-convex';
  return { ...(isPlano && { 'flat side': [runs === 'up' ? 'up' : 'down'] }), ...RIGHT };
}

/** `snug, no more` is snug. */
function isRight(noted: string | undefined, right: readonly string[]): boolean {
  return (
    noted !== undefined &&
    right.includes(
      noted
        .trim()
        .toLowerCase()
        .replace(/, no more$/, ''),
    )
  );
}

function itemInWords(item: string, noted: string | undefined): string {
  return noted === undefined ? item : `${item} (“${shortened(noted)}”)`;
}
