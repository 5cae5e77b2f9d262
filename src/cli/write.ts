/** Writes files atomically: a file is written completely, or keeps its old content. */
import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  copyFileSync,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readFileSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  type BigIntStats,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { STANDARD_INPUT } from '../disk/index.ts';

/** The content of a file, or a sentence with the reason why it could not be made. */
export type Made = { readonly content: string | Uint8Array } | { readonly problem: string };

/** What went wrong, in a sentence; undefined if nothing did. */
export type Problem = string | undefined;

/**
 * Writes a file beside the existing one, flushes it to the disk, and renames it. Whatever fails (a full disk, a killed
 * process), the file has its old content or all of its new content. A killed process may leave a partial file,
 * `.alignbook-….part`; the next write into that folder removes it.
 *
 * An existing file keeps its permissions, and its owner where the system allows it; access lists are not copied, and
 * another name of the file (a hard link) keeps the old content. A symbolic link is followed and stays a link; one to a
 * missing file is refused. A device or a pipe has no content to keep and is written directly.
 *
 * @param made is called once the file is known to be writable
 * @param inputs paths of the files that were read, `-` for standard input: none of them is overwritten under any name
 */
export function write(file: string, made: () => Made, inputs: readonly string[]): Problem {
  try {
    const existing = statSync(file, { bigint: true, throwIfNoEntry: false });
    const refused = refusal(file, existing, inputs);
    if (refused !== undefined) return refused;
    const result = made();
    if ('problem' in result) return result.problem;
    // After a short write Node writes the rest; reaching the end of the device is an error.
    const bytes = typeof result.content === 'string' ? Buffer.from(result.content) : result.content;
    if (existing && !existing.isFile()) writeFileSync(file, bytes);
    else replace(file, bytes, existing);
    return undefined;
  } catch (problem) {
    return cannotBeWritten(file, problem);
  }
}

/** Writes a file that is not there yet; nothing is ever overwritten, not even what appears meanwhile. */
export function create(file: string, text: string): Problem {
  try {
    inPart(dirname(file), Buffer.from(text), undefined, (part) => {
      try {
        linkSync(part, file);
      } catch (problem) {
        if (codeOf(problem) === 'EEXIST') throw problem;
        // Some file systems have no links.
        copyFileSync(part, file, constants.COPYFILE_EXCL);
      }
      rmSync(part, { force: true });
    });
    return undefined;
  } catch (problem) {
    return codeOf(problem) === 'EEXIST'
      ? `${file} is there already. Nothing was written.`
      : cannotBeWritten(file, problem);
  }
}

/** Whether there is anything of this name, a link to a missing file included. */
export function exists(file: string): boolean {
  return lstatSync(file, { throwIfNoEntry: false }) !== undefined;
}

/**
 * Replaces the content of a workbook, as `write` does.
 *
 * @param before what was read: a file that has changed since keeps its content
 */
export function rewrite(file: string, before: Uint8Array, bytes: Uint8Array): Problem {
  try {
    const existing = statSync(file, { bigint: true });
    if (!existing.isFile()) return `${file} is not a file.`;
    accessSync(file, constants.W_OK);
    if (!readFileSync(file).equals(before)) return `${file} was changed meanwhile. Nothing was written.`;
    replace(file, bytes, existing);
    return undefined;
  } catch (problem) {
    return cannotBeWritten(file, problem);
  }
}

function refusal(file: string, existing: BigIntStats | undefined, inputs: readonly string[]): Problem {
  if (!existing)
    return lstatSync(file, { throwIfNoEntry: false }) && `${file} is a link to a file that does not exist.`;
  if (existing.isDirectory()) return `${file} is a folder.`;
  if (!existing.isFile()) return undefined;
  if (inputs.some((input) => isSame(existing, statOf(input)))) {
    return `${file} is one of the files that were read and is not overwritten.`;
  }
  if (/\.ya?ml$/i.test(realpathSync(file))) return `${file} leads to a workbook, which is not overwritten.`;
  accessSync(file, constants.W_OK);
  return undefined;
}

/** Compares the files, not the names: links, `..` and the case of letters give one file many names. */
function isSame(one: BigIntStats, other: BigIntStats | undefined): boolean {
  return one.dev === other?.dev && one.ino === other.ino;
}

function statOf(input: string): BigIntStats | undefined {
  try {
    return input === STANDARD_INPUT ? fstatSync(0, { bigint: true }) : statSync(input, { bigint: true });
  } catch {
    // Closed, or removed meanwhile.
    return undefined;
  }
}

function replace(file: string, bytes: Uint8Array, existing: BigIntStats | undefined): void {
  const goal = existing ? realpathSync(file) : file;
  inPart(dirname(goal), bytes, existing, (part) => renameSync(part, goal));
}

/** Writes a partial file and flushes it to the disk, then puts it in its place. */
function inPart(
  folder: string,
  bytes: Uint8Array,
  existing: BigIntStats | undefined,
  place: (part: string) => void,
): void {
  removeLeftovers(folder);
  // Short, so that it fits wherever the file's own name does.
  const part = join(folder, `.alignbook-${process.pid}-${randomBytes(4).toString('hex')}.part`);
  try {
    const descriptor = openSync(part, 'wx', existing ? modeOf(existing) : 0o666);
    try {
      writeFileSync(descriptor, bytes);
      if (existing) copyPermissions(descriptor, existing);
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    place(part);
  } catch (problem) {
    rmSync(part, { force: true });
    throw problem;
  }
}

/** Called only where they differ: some file systems refuse even a change that changes nothing. */
function copyPermissions(descriptor: number, existing: BigIntStats): void {
  const own = fstatSync(descriptor, { bigint: true });
  if (own.uid !== existing.uid || own.gid !== existing.gid) {
    try {
      fchownSync(descriptor, Number(existing.uid), Number(existing.gid));
    } catch {
      // Only root can give a file to another user; otherwise it belongs to the user who writes it.
    }
  }
  if (modeOf(own) !== modeOf(existing)) fchmodSync(descriptor, modeOf(existing));
}

function modeOf(existing: BigIntStats): number {
  return Number(existing.mode) & 0o777;
}

/** Removes the partial files of killed processes. One that cannot be removed does no harm. */
function removeLeftovers(folder: string): void {
  try {
    for (const name of readdirSync(folder)) {
      const owner = /^\.alignbook-(\d+)-[0-9a-f]{8}\.part$/.exec(name)?.[1];
      if (owner !== undefined && !isRunning(Number(owner))) rmSync(join(folder, name), { force: true });
    }
  } catch {
    // Whether the folder is writable shows when the file is written.
  }
}

/** Whether it is another process that is running. */
function isRunning(owner: number): boolean {
  if (owner === process.pid) return false;
  try {
    return process.kill(owner, 0);
  } catch (problem) {
    return codeOf(problem) !== 'ESRCH';
  }
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'permission is denied',
  EPERM: 'the system does not permit it',
  EROFS: 'the file system is read-only',
  ENOENT: 'its folder does not exist',
  ENOTDIR: 'its folder is not a folder',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EFBIG: 'it would be larger than a file may be here',
  ELOOP: 'its links form a loop',
};

/** @throws what is not a system error: a mistake in this program */
export function cannotBeWritten(what: string, problem: unknown): string {
  const code = codeOf(problem);
  if (code === undefined) throw problem;
  return `${what} cannot be written: ${REASONS[code] ?? code}.`;
}

export function codeOf(problem: unknown): string | undefined {
  return problem instanceof Error && 'syscall' in problem && 'code' in problem ? String(problem.code) : undefined;
}
