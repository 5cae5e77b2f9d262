/** Entries of short logs, with the machine of the other tests. */
import { threads } from '../../src/machine/index.ts';
import type { LogEntry } from '../../src/model/index.ts';
import { createReader, expressions } from '../../src/workbook/index.ts';

export function entries(...cells: string[]): readonly LogEntry[] {
  return createReader({ threads, expressions }).read(cells.map((cell) => `${cell.trimEnd()}\n`).join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  }).entries;
}
