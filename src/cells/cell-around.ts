import type { Cell } from './cell.ts';

/** Index of the cell that holds an offset; −1 in the head, the last beyond the end. */
export function cellAround(cells: readonly Pick<Cell, 'start'>[], offset: number): number {
  let [low, high] = [0, cells.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (cells[middle]!.start <= offset) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
