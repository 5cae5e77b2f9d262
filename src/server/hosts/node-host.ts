/** Node: files come from disk, and the root is the same as on the command line. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { placeOf, loadInside, workbooksIn } from '../../disk/index.ts';
import type { Tables } from '../../language/index.ts';
import { today } from './today.ts';
import type { Host } from './host.ts';

/** @param page path of the page that documents the findings */
export function nodeHost(tables: Tables, page: string): Host {
  const href = existsSync(page) ? pathToFileURL(page).href : undefined;
  return {
    tables,
    placeOf: (uri) =>
      uri.startsWith('file:') ? placeOf(fileURLToPath(uri)) : { root: uri, file: 'untitled.alignbook.yaml' },
    uriOf: ({ root, file }) => pathToFileURL(join(root, file)).href,
    load: async ({ root, file }) => loadInside(root, file),
    workbooksIn: async (folder) =>
      folder.startsWith('file:') ? workbooksIn(fileURLToPath(folder)).map((path) => pathToFileURL(path).href) : [],
    page: () => href,
    today,
    now: () => performance.now(),
    turn: () => new Promise((resolve) => setImmediate(resolve)),
  };
}
