/**
 * What the log says of the order of work: safety checks before firing, optics that were out, when each part was last
 * cared for. Rules read it; neither verdict nor advice does.
 */
import type { CareEntry, Entry } from '../model/index.ts';

export interface Practice {
  /** The visit that a session cell opened; none before the first. */
  readonly visit?: { readonly isChecked: boolean; readonly hasFired: boolean };
  /** Parts that were out in this visit, and what has been noted of putting them back. */
  readonly refits: ReadonlyMap<string, readonly string[]>;
  /** By part: the date of its last care, as written. */
  readonly cared: ReadonlyMap<string, string>;
}

export const NO_PRACTICE: Practice = { refits: new Map(), cared: new Map() };

/** @param date of the entry, or the last one above it */
export function practised(before: Practice, entry: Entry, date: string | undefined): Practice {
  const { visit } = before;
  switch (entry.kind) {
    case 'session': return { ...before, visit: { isChecked: false, hasFired: false }, refits: NO_PRACTICE.refits };
    case 'checks': return visit ? { ...before, visit: { ...visit, isChecked: true } } : before;
    // What cannot be read may have been the checks.
    case 'unread': return visit && (entry.of ?? 'checks') === 'checks' ? { ...before, visit: { ...visit, isChecked: true } } : before;
    case 'marks': return visit && !visit.hasFired ? { ...before, visit: { ...visit, hasFired: true } } : before;
    case 'care': return caredFor(before, entry, date);
    default: return before;
  }
}

function caredFor(before: Practice, entry: CareEntry, date: string | undefined): Practice {
  const cared = date === undefined ? before.cared : new Map(before.cared).set(entry.part, date);
  return { ...before, cared, refits: refitted(before.refits, entry) };
}

function refitted(refits: Practice['refits'], { part, did, refit }: CareEntry): Practice['refits'] {
  const noted = Object.keys(refit ?? {});
  if (isRemoval(did)) return new Map(refits).set(part, noted);
  const before = refits.get(part);
  return before && noted.length > 0 ? new Map(refits).set(part, [...before, ...noted]) : refits;
}

export function isRemoval(did: CareEntry['did']): boolean {
  return did === 'removed and cleaned' || did === 'replaced';
}
