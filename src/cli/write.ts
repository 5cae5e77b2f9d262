/** Files that are made. Each is written whole, or what was there before stays as it was. */
import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fchmodSync,
  fchownSync,
  fstatSync,
  fsyncSync,
  lstatSync,
  openSync,
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

/** What a file is to hold, or in a sentence why that could not be made. */
export type Made = { readonly content: string | Uint8Array } | { readonly problem: string };

/** What went wrong, in a sentence; nothing where nothing did. */
export type Problem = string | undefined;

/**
 * Writes a file beside the one that is there, makes sure that it is on the disk, and renames it. Whatever fails (a full
 * disk, a process that is killed), the file has its old content or all of its new content. A process that is killed may
 * leave what it was writing, `.alignbook-….part`; the next write into that folder removes it.
 *
 * A file that is there keeps its permissions, and its owner where the system allows it; access lists are not copied,
 * and another name of the file (a hard link) keeps the old content. A symbolic link is followed and stays a link; one
 * to a file that does not exist is refused. A device or a pipe holds nothing that could be kept: it is written as it
 * is.
 *
 * @param made called once the file is known to be one that may be written
 * @param inputs paths of the files that were read, `-` for standard input: none of them is written over, by whatever
 * name
 */
export function write(file: string, made: () => Made, inputs: readonly string[]): Problem {
  try {
    const known = statSync(file, { bigint: true, throwIfNoEntry: false });
    const refused = refusal(file, known, inputs);
    if (refused !== undefined) return refused;
    const result = made();
    if ('problem' in result) return result.problem;
    // Of bytes Node writes what is left after a short write; the end of it is an error.
    const bytes = typeof result.content === 'string' ? Buffer.from(result.content) : result.content;
    if (known && !known.isFile()) writeFileSync(file, bytes);
    else replace(file, bytes, known);
    return undefined;
  } catch (problem) {
    return cannotBeWritten(file, problem);
  }
}

function refusal(file: string, known: BigIntStats | undefined, inputs: readonly string[]): Problem {
  if (!known) return lstatSync(file, { throwIfNoEntry: false }) && `${file} is a link to a file that does not exist.`;
  if (known.isDirectory()) return `${file} is a folder.`;
  if (!known.isFile()) return undefined;
  if (inputs.some((input) => isSame(known, statOf(input)))) {
    return `${file} is one of the files that were read and is not overwritten.`;
  }
  if (/\.ya?ml$/i.test(realpathSync(file))) return `${file} leads to a workbook, which is not overwritten.`;
  accessSync(file, constants.W_OK);
  return undefined;
}

/** Names say little: links, `..` and the case of letters give one file many of them. */
function isSame(one: BigIntStats, other: BigIntStats | undefined): boolean {
  return one.dev === other?.dev && one.ino === other.ino;
}

function statOf(input: string): BigIntStats | undefined {
  try {
    return input === STANDARD_INPUT ? fstatSync(0, { bigint: true }) : statSync(input, { bigint: true });
  } catch {
    // Closed, or gone meanwhile.
    return undefined;
  }
}

function replace(file: string, bytes: Uint8Array, known: BigIntStats | undefined): void {
  const goal = known ? realpathSync(file) : file;
  const folder = dirname(goal);
  removeLeftovers(folder);
  // Short, so that it fits wherever the file's own name does.
  const part = join(folder, `.alignbook-${process.pid}-${randomBytes(4).toString('hex')}.part`);
  try {
    const descriptor = openSync(part, 'wx', known ? modeOf(known) : 0o666);
    try {
      writeFileSync(descriptor, bytes);
      if (known) keepPermissions(descriptor, known);
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    renameSync(part, goal);
  } catch (problem) {
    rmSync(part, { force: true });
    throw problem;
  }
}

/** Asked for only where they differ: some file systems refuse even what changes nothing. */
function keepPermissions(descriptor: number, known: BigIntStats): void {
  const own = fstatSync(descriptor, { bigint: true });
  if (own.uid !== known.uid || own.gid !== known.gid) {
    try {
      fchownSync(descriptor, Number(known.uid), Number(known.gid));
    } catch {
      // Only root gives a file to somebody else: it then belongs to whoever writes it.
    }
  }
  if (modeOf(own) !== modeOf(known)) fchmodSync(descriptor, modeOf(known));
}

function modeOf(known: BigIntStats): number {
  return Number(known.mode) & 0o777;
}

/** Of processes that were killed while they wrote. What cannot be removed is in nobody's way. */
function removeLeftovers(folder: string): void {
  try {
    for (const name of readdirSync(folder)) {
      const owner = /^\.alignbook-(\d+)-[0-9a-f]{8}\.part$/.exec(name)?.[1];
      if (owner !== undefined && !isRunning(Number(owner))) rmSync(join(folder, name), { force: true });
    }
  } catch {
    // Whether the folder can be written to is seen when it is.
  }
}

/** Whether it is another process, and runs. */
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

/** @throws what is no error of the system: a mistake of ours */
export function cannotBeWritten(what: string, problem: unknown): string {
  const code = codeOf(problem);
  if (code === undefined) throw problem;
  return `${what} cannot be written: ${REASONS[code] ?? code}.`;
}

export function codeOf(problem: unknown): string | undefined {
  return problem instanceof Error && 'syscall' in problem && 'code' in problem ? String(problem.code) : undefined;
}
