/** A lens that was out goes back to work, and the log does not say that it was put back right. */
import { findingAt, lookup, type CareEntry, type Finding, type LogEntry } from '../model/index.ts';
import type { State } from '../estimate/index.ts';
import { station, type Station } from '../machine/index.ts';
import { brief, listed, nameInCell } from '../words/index.ts';
import { isReturn } from './rule.ts';

type Noted = NonNullable<CareEntry['refit']>;
type Item = keyof Noted;

/** What says that it is right; the first is what a cell is given. Whatever else is written may be a reason to look again. */
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
    return [findingAt(logged, 'release', 'release.refit', { part, what, cell })];
  });
}

/** The flat side looks at the work, away from where the beam comes from; a meniscus and a biconvex lens have none. */
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
  return noted === undefined ? item : `${item} (“${brief(noted)}”)`;
}
