/**
 * A list that grows at its end and shares its earlier items: the states of a log of n cells together hold n items and
 * not n².
 */
export interface SharedList<T> {
  /** The items added last. */
  readonly last: readonly T[];
  readonly before: SharedList<T> | undefined;
  /** Number of all items. */
  readonly size: number;
}

/** The list with these items at its end. */
export function added<T>(before: SharedList<T> | undefined, last: readonly T[]): SharedList<T> {
  return { last, before, size: (before?.size ?? 0) + last.length };
}

/** The items in the order in which they were added; the last `most` of them. */
export function items<T>(list: SharedList<T> | undefined, most = Infinity): T[] {
  const parts: (readonly T[])[] = [];
  let count = 0;
  for (let part = list; part && count < most; part = part.before) {
    parts.push(part.last);
    count += part.last.length;
  }
  const all = parts.reverse().flat();
  return count > most ? all.slice(count - most) : all;
}
