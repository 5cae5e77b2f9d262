/**
 * Reads workbooks from disk and from standard input. A machine that is taken `from` another file is read only inside
 * the root (the nearest folder with `.git`, else the workbook's own), after links are resolved.
 */
import { closeSync, existsSync, openSync, readSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import type { ReadFile } from '../workbook/index.ts';

/** The name of standard input among the files of the command line. */
export const STANDARD_INPUT = '-';

/** Larger files are not read into memory. */
const LARGEST = 64 * 1024 * 1024;
const PIECE = 64 * 1024;

/** UTF-8 text with its byte order mark, or the reason why it cannot be read. Pipes are read too. */
export function readText(path: string): ReadFile {
  try {
    if (path === STANDARD_INPUT) return readFrom(0);
    const descriptor = openSync(path, 'r');
    try {
      return readFrom(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } catch (problem) {
    return { reason: whyNot(problem) };
  }
}

function readFrom(descriptor: number): ReadFile {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const piece = new Uint8Array(PIECE);
    const count = readPiece(descriptor, piece);
    if (count === 0) return decoded(Buffer.concat(pieces));
    size += count;
    if (size > LARGEST) return { reason: 'it is larger than 64 MB' };
    pieces.push(piece.subarray(0, count));
  }
}

/** Bytes read; 0 at the end. Waits for a pipe that has no data yet. */
function readPiece(descriptor: number, piece: Uint8Array): number {
  for (;;) {
    try {
      return readSync(descriptor, piece);
    } catch (problem) {
      if (codeOf(problem) === 'EOF') return 0;
      if (codeOf(problem) !== 'EAGAIN') throw problem;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
    }
  }
}

function decoded(bytes: Uint8Array): ReadFile {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return { reason: 'it is not UTF-8 text' };
  }
}

/** Whether there is a folder of this name. */
export function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    // Why it cannot be read is reported where it is read as a file.
    return false;
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'permission denied',
  EISDIR: 'it is a folder',
  ELOOP: 'its links form a loop',
};

function whyNot(problem: unknown): string {
  const code = codeOf(problem);
  return REASONS[code] ?? (code || String(problem));
}

function codeOf(problem: unknown): string {
  return problem instanceof Error && 'code' in problem ? String(problem.code) : '';
}

/** The place of a workbook under its root, and access to other files there. */
export interface Folder {
  readonly root: string;
  /** Path of the workbook, relative to the root, `/` between folders. */
  readonly file: string;
  load(path: string): ReadFile;
}

/** The place of a workbook, with access to the files that it may take machines from. */
export function folderOf(path: string): Folder {
  return folderNamed(path !== STANDARD_INPUT && statSync(path).isFile() ? path : 'standard-input.alignbook.yaml');
}

/** The same for a workbook that need not exist. */
export function folderNamed(own: string): Folder {
  const { root, file } = placeOf(own);
  return { root, file, load: (other) => loadInside(root, other) };
}

/** Root and path of a workbook, which need not exist yet. */
export function placeOf(path: string): { readonly root: string; readonly file: string } {
  const own = existsSync(path) ? realpathSync(path) : join(realFolder(dirname(resolve(path))), basename(path));
  const root = rootOf(dirname(own));
  return { root, file: relative(root, own).split(sep).join('/') };
}

function realFolder(folder: string): string {
  return existsSync(folder) ? realpathSync(folder) : folder;
}

function rootOf(start: string): string {
  for (let folder = start; ; folder = dirname(folder)) {
    if (existsSync(join(folder, '.git'))) return folder;
    if (folder === dirname(folder)) return start;
  }
}

/** Reads a file under a root, by its path with `/` between folders; links out of the root are not followed. */
export function loadInside(root: string, file: string): ReadFile {
  try {
    const real = realpathSync(join(root, file));
    if (!real.startsWith(root.endsWith(sep) ? root : root + sep)) return { reason: 'it is outside the repository' };
    return statSync(real).isFile() ? readText(real) : { reason: 'it is not a file' };
  } catch (problem) {
    return { reason: whyNot(problem) };
  }
}
