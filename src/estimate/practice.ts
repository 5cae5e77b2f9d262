/**
 * What the log contains about the order of work: safety checks before firing, checks left open, how optics that were
 * out were refitted, and the date of the last care of each part. The rules use it; verdicts and advice do not.
 *
 * Open items outlive a visit: a machine that was withdrawn comes back as it was left. A release reports them once.
 */
import { checkKey, isShotKind, type CareEntry, type ChecksEntry, type Entry } from '../model/index.ts';

export interface Practice {
  /** The visit that a session cell opened; absent before the first. */
  readonly visit?: { readonly isChecked: boolean };
  /** Whether a shot was fired since the session began or checks were last logged. */
  readonly hasFired: boolean;
  /** Checks not done, oldest first. */
  readonly open: readonly OpenCheck[];
  /** By part that was taken out or refitted: the latest note on each item of refitting it. */
  readonly refits: ReadonlyMap<string, NonNullable<CareEntry['refit']>>;
  /** By part: the date of its last care, as written. */
  readonly cared: ReadonlyMap<string, string>;
}

/** A check that was logged as not done. */
export interface OpenCheck {
  readonly item: string;
  /** The title of the list. */
  readonly list: string;
  /** Whether it belongs to the current visit. Checks that an earlier visit left open do not prevent a shot. */
  readonly isOfVisit: boolean;
}

export const NO_PRACTICE: Practice = { hasFired: false, open: [], refits: new Map(), cared: new Map() };

/** @param date of the entry, or the last one above it */
export function practised(earlier: Practice, entry: Entry, date: string | undefined): Practice {
  const before = isShotKind(entry.kind) && !earlier.hasFired ? { ...earlier, hasFired: true } : earlier;
  switch (entry.kind) {
    case 'session':
      return {
        ...before,
        visit: { isChecked: false },
        hasFired: false,
        open: before.open.map((check) => ({ ...check, isOfVisit: false })),
      };
    case 'checks':
      return checked(before, entry);
    // A cell with errors may have been the checks.
    case 'unread':
      return before.visit && (entry.of ?? 'checks') === 'checks' ? { ...before, visit: { isChecked: true } } : before;
    case 'care':
      return caredFor(before, entry, date);
    case 'release':
      return released(before, entry.to === 'in service');
    case 'machine':
    case 'limits':
    case 'marks':
    case 'adjust':
    case 'power':
    case 'measure':
    case 'event':
    case 'note':
    case 'work':
      return before;
  }
}

/** The visit is over: another shot needs another check, and open checks belong to the visit that left them. */
function released(before: Practice, isReturn: boolean): Practice {
  const open = isReturn ? [] : before.open.map((check) => ({ ...check, isOfVisit: false }));
  return {
    ...before,
    ...(before.visit && { visit: { isChecked: false } }),
    hasFired: false,
    open,
    ...(isReturn && { refits: new Map() }),
  };
}

/** An empty list checks nothing. An item is done when any later list contains it as done. */
function checked(before: Practice, { title, done, open }: ChecksEntry): Practice {
  const named = new Set([...done, ...open].map(checkKey));
  const stillOpen = before.open.filter(({ item }) => !named.has(checkKey(item)));
  return {
    ...before,
    ...(before.visit && named.size > 0 && { visit: { isChecked: true } }),
    hasFired: false,
    open: [...stillOpen, ...open.map((item) => ({ item, list: title, isOfVisit: true }))],
  };
}

function caredFor(before: Practice, entry: CareEntry, date: string | undefined): Practice {
  const cared = date === undefined ? before.cared : new Map(before.cared).set(entry.part, date);
  return { ...before, cared, refits: refitted(before.refits, entry) };
}

function refitted(refits: Practice['refits'], { part, did, refit }: CareEntry): Practice['refits'] {
  if (isRemoval(did)) return new Map(refits).set(part, refit ?? {});
  return refit ? new Map(refits).set(part, { ...refits.get(part), ...refit }) : refits;
}

function isRemoval(did: CareEntry['did']): boolean {
  return did === 'removed and cleaned' || did === 'replaced';
}

/** Whether the part moved: tightening moves it as taking it out does. */
export function isMoved(did: CareEntry['did']): boolean {
  return isRemoval(did) || did === 'tightened';
}
