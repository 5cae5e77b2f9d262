/** Finds other programs. */
import { existsSync } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';

/**
 * The first of the names that exists in an absolute folder of `PATH`; undefined if none does. The system would also
 * look in the current folder, for which an empty entry or `.` stands, and on Windows always: a program there may come
 * with the workbook.
 */
export function onPath(names: readonly string[]): string | undefined {
  const folders = (process.env['PATH'] ?? '').split(delimiter).filter(isAbsolute);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find((path) => existsSync(path));
}
