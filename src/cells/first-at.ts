/** Binary search in items sorted by cell. */

/** Index of the first item in this cell or a later one; the number of items if there is none. */
export function firstAt(all: readonly { readonly cell: number }[], cell: number): number {
  let [low, high] = [0, all.length];
  while (low < high) {
    const half = (low + high) >> 1;
    if (all[half]!.cell < cell) low = half + 1;
    else high = half;
  }
  return low;
}
