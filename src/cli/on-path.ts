/** Other programs. */
import { existsSync } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';

/**
 * Where the first of the names is in a folder of `PATH` that is given from the root; nothing where there is none. The
 * system also looks where the user happens to be, for which an empty folder or `.` stands, and on Windows always:
 * whoever made the files there would choose what is run.
 */
export function onPath(names: readonly string[]): string | undefined {
  const folders = (process.env['PATH'] ?? '').split(delimiter).filter(isAbsolute);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find((path) => existsSync(path));
}
