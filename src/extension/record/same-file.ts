/** Whether two URIs lead to one file, as far as the editor's file system can show. */
import type { FileStat, Uri } from 'vscode';

/**
 * A link has the size and the times of its target. Two files that agree in all three, to the millisecond, count as one.
 */
export async function isSameFile(one: Uri, other: Uri, stat: (file: Uri) => Thenable<FileStat>): Promise<boolean> {
  try {
    const [first, second] = [await stat(one), await stat(other)];
    return first.size === second.size && first.mtime === second.mtime && first.ctime === second.ctime;
  } catch {
    // One of them does not exist yet.
    return false;
  }
}
