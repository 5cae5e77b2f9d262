/** Entries of short logs, with the machine of the other tests. */
import type { LogEntry } from '../../src/model/index.ts';
import { reader } from './log.ts';

export function entries(...cells: string[]): readonly LogEntry[] {
  return reader.read(cells.map((cell) => `${cell.trimEnd()}\n`).join('---\n'), {
    file: 'test.alignbook.yaml',
    files: new Map(),
  }).entries;
}
