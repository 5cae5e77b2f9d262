/**
 * Workbooks from disk and from standard input. A machine that is taken `from` another file is read only inside the
 * root (the nearest folder with `.git`, else the workbook's own), links followed before that is decided.
 */
import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import type { ReadFile } from '../workbook/index.ts';

export const STANDARD_INPUT = '-';

/** More than this is no workbook; it is refused before it is read into memory. */
const LARGEST = 64 * 1024 * 1024;

/** UTF-8 text with its byte order mark, or the reason why not. */
export function readText(path: string): ReadFile {
  try {
    if (path === STANDARD_INPUT) return decoded(readFileSync(0));
    const found = statSync(path);
    if (!found.isFile()) return { reason: 'it is not a file' };
    return found.size > LARGEST ? { reason: 'it is larger than 64 MB' } : decoded(readFileSync(path));
  } catch (problem) {
    return { reason: whyNot(problem) };
  }
}

function decoded(bytes: Uint8Array): ReadFile {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return { reason: 'it is not UTF-8 text' };
  }
}

const REASONS: Readonly<Record<string, string>> = { ENOENT: 'there is no such file', EACCES: 'it may not be read', EISDIR: 'it is a folder', ELOOP: 'its links go in a circle' };

function whyNot(problem: unknown): string {
  const code = problem instanceof Error && 'code' in problem ? String(problem.code) : '';
  return REASONS[code] ?? (code || String(problem));
}

/** A workbook's place under its root, and the other files there. */
export interface Folder {
  /** Of the workbook, relative to the root, `/` between folders. */
  readonly file: string;
  load(path: string): ReadFile;
}

export function folderOf(path: string): Folder {
  const own = path === STANDARD_INPUT ? join(realpathSync('.'), 'standard-input.alignbook.yaml') : realpathSync(path);
  const root = rootOf(dirname(own));
  return { file: relative(root, own).split(sep).join('/'), load: (wanted) => loadInside(root, wanted) };
}

function rootOf(start: string): string {
  for (let folder = start; ; folder = dirname(folder)) {
    if (existsSync(join(folder, '.git'))) return folder;
    if (folder === dirname(folder)) return start;
  }
}

function loadInside(root: string, wanted: string): ReadFile {
  try {
    const real = realpathSync(join(root, wanted));
    return real.startsWith(root.endsWith(sep) ? root : root + sep) ? readText(real) : { reason: 'it lies outside the repository' };
  } catch (problem) {
    return { reason: whyNot(problem) };
  }
}
