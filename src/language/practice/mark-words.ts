/** A burn as it is read, in the words of a cell. */
import type { Book } from '../book/book-type.ts';
import { arrivesAt } from '../book/arrives-at.ts';
import { machineAt } from '../book/machine-at.ts';
import { legWords } from '../edits/place-mark.ts';
import type { FiredMark } from './fire.ts';

/** @param resolution the step of reading, mm */
export function markWords(book: Book, { place, station, burn }: FiredMark, resolution: number): string {
  const machine = machineAt(book, place.cell);
  const runs = machine && arrivesAt(machine, station);
  if (burn.none || !machine || !runs) return 'none';
  const step = (mm: number) => Math.round(mm / resolution) * resolution + 0;
  return legWords({ right: step(burn.right), up: step(burn.up) }, { machine, runs, mirrored: false });
}
