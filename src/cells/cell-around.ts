import type { Cell } from './cell.ts';

/** Index of the cell that contains an offset; −1 in the head, the last cell beyond the end. */
export function cellAround(cells: readonly Pick<Cell, 'start'>[], offset: number): number {
  let [low, high] = [0, cells.length];
  while (low < high) {
    const half = (low + high) >> 1;
    if (cells[half]!.start <= offset) low = half + 1;
    else high = half;
  }
  return low - 1;
}
