/**
 * Readings cell by cell, as a list that grows at its end: each shares all that stood in it before, so that every state of a log
 * of n cells together holds n cells and not n².
 */
export interface SharedList<T> {
  /** What was added last. */
  readonly last: readonly T[];
  readonly before?: SharedList<T>;
}

/** In the order in which they were added; of the last `most` of them only. */
export function items<T>(list: SharedList<T> | undefined, most = Infinity): T[] {
  const parts: (readonly T[])[] = [];
  let count = 0;
  for (let one = list; one && count < most; one = one.before) {
    parts.push(one.last);
    count += one.last.length;
  }
  const all = parts.reverse().flat();
  return count > most ? all.slice(count - most) : all;
}
