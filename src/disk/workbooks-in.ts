/** The workbooks of a folder and its subfolders. Links are not followed, so a cycle of links does no harm. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

/** Limits of the search. */
const MOST = 2000;
const DEEPEST = 12;

/** Paths of the workbooks in a folder, sorted; empty if it cannot be read. */
export function workbooksIn(folder: string): string[] {
  const paths: string[] = [];
  look(folder, 0, paths);
  return paths.sort();
}

function look(folder: string, depth: number, paths: string[]): void {
  for (const entry of entriesOf(folder)) {
    if (paths.length >= MOST) return;
    const path = join(folder, entry.name);
    if (entry.isFile() && entry.name.endsWith('.alignbook.yaml')) paths.push(path);
    else if (entry.isDirectory() && depth < DEEPEST && entry.name !== 'node_modules' && !entry.name.startsWith('.'))
      look(path, depth + 1, paths);
  }
}

/** An unreadable folder counts as empty. */
function entriesOf(folder: string) {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return [];
  }
}
