/** Node: files come from disk, and the root is where the command line has it. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { placeOf, loadInside, workbooksIn } from '../disk/index.ts';
import type { Tables } from '../language/index.ts';
import { today } from './today.ts';
import type { Host } from './host.ts';

/** @param pages folder of the pages about findings */
export function nodeHost(tables: Tables, pages: string): Host {
  const hasPages = existsSync(pages);
  return {
    tables,
    placeOf: (uri) => (uri.startsWith('file:') ? placeOf(fileURLToPath(uri)) : { root: uri, file: 'untitled.alignbook.yaml' }),
    uriOf: ({ root, file }) => pathToFileURL(join(root, file)).href,
    load: async ({ root, file }) => loadInside(root, file),
    workbooksIn: async (folder) => (folder.startsWith('file:') ? workbooksIn(fileURLToPath(folder)).map((path) => pathToFileURL(path).href) : []),
    pageOf: (code) => (hasPages ? pathToFileURL(join(pages, `${code}.md`)).href : undefined),
    today,
    now: () => performance.now(),
    turn: () => new Promise((resolve) => setImmediate(resolve)),
  };
}
