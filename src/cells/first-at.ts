/** Things of cells are in file order: found by halving. */

/** Index of the first that stands in this cell or below; their number where there is none. */
export function firstAt(all: readonly { readonly cell: number }[], cell: number): number {
  let [low, high] = [0, all.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (all[middle]!.cell < cell) low = middle + 1;
    else high = middle;
  }
  return low;
}
