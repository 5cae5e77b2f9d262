/** Whether two addresses lead to one file, as far as an editor can tell that has no disk of its own. */
import type { FileStat, Uri } from 'vscode';

/** A link has the size and the times of what it leads to. Two files with the same of all three, to the millisecond, are one. */
export async function isSameFile(one: Uri, other: Uri, stat: (file: Uri) => Thenable<FileStat>): Promise<boolean> {
  try {
    const [first, second] = [await stat(one), await stat(other)];
    return first.size === second.size && first.mtime === second.mtime && first.ctime === second.ctime;
  } catch {
    // One of them is not there yet.
    return false;
  }
}
