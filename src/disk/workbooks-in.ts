/** The workbooks of a folder and of those in it. Links are not followed, so that a circle of them ends. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

/** More are nobody's workshop. */
const MOST = 2000;
const DEEPEST = 12;

export function workbooksIn(folder: string): string[] {
  const found: string[] = [];
  look(folder, 0, found);
  return found.sort();
}

function look(folder: string, depth: number, found: string[]): void {
  for (const entry of entriesOf(folder)) {
    if (found.length >= MOST) return;
    const path = join(folder, entry.name);
    if (entry.isFile() && entry.name.endsWith('.alignbook.yaml')) found.push(path);
    else if (entry.isDirectory() && depth < DEEPEST && entry.name !== 'node_modules' && !entry.name.startsWith('.'))
      look(path, depth + 1, found);
  }
}

/** A folder that may not be read holds nothing for us. */
function entriesOf(folder: string) {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return [];
  }
}
