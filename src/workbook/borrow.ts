/**
 * Takes a machine from another workbook. The path is relative to the workbook that names it and never leads out of the
 * root. Nothing is loaded here: a missing file is recorded, and the caller reads again once it has loaded it.
 */
import { splitCells } from '../cells/index.ts';
import type { RawCell } from './raw.ts';
import type { Resolved, Surroundings } from './resolve.ts';

/** The text of a file, or why it could not be read. */
export type ReadFile = { readonly text: string } | { readonly reason: string };

export interface Library {
  readonly files: ReadonlyMap<string, ReadFile>;
  /** Paths that were requested. */
  readonly borrows: Set<string>;
  readRaw(text: string): RawCell | undefined;
  resolve(raw: RawCell, machineFrom: Surroundings['machineFrom']): Resolved;
}

/** Each file of a chain costs one more reading of the workbook; a longer chain is a mistake. */
const MOST_FILES = 32;

/** Resolves the `from` of a machine cell named `name` in `file`. @param chain the machines on the way here */
export function borrowMachine(
  library: Library,
  file: string,
  name: string,
  from: string,
  chain: readonly string[] = [],
): ReturnType<Surroundings['machineFrom']> {
  const path = resolvePath(file, from);
  if (path === undefined) return { reason: 'it is outside the root folder' };
  const links = [...chain, `${file} ${name}`];
  const here = `${path} ${name}`;
  if (links.includes(here)) return { reason: 'the `from` of the files forms a loop' };
  if (links.length > MOST_FILES) return { reason: `its chain of files is longer than ${MOST_FILES}` };
  library.borrows.add(path);
  const source = library.files.get(path);
  if (source === undefined) return undefined;
  if ('reason' in source) return source;
  const last = lastMachine(library, source.text, name);
  if (last === undefined) return { reason: `it has no machine cell named ${name}` };
  let inner: ReturnType<Surroundings['machineFrom']> = { reason: 'its machine cell has errors' };
  const { entry } = library.resolve(
    last,
    (innerName, innerFrom) => (inner = borrowMachine(library, path, innerName, innerFrom, links)),
  );
  return entry.kind === 'machine' ? { machine: entry.machine } : inner;
}

function lastMachine(library: Library, text: string, name: string): RawCell | undefined {
  let last: RawCell | undefined;
  for (const { readings } of splitCells(text).cells) {
    for (const reading of readings) {
      if (!reading.includes('machine')) continue;
      const raw = library.readRaw(reading);
      if (raw?.kind === 'machine' && raw.part === name) last = raw;
    }
  }
  return last;
}

/** The path with `/` between folders; undefined if it leads out of the root, or is absolute. */
export function resolvePath(file: string, from: string): string | undefined {
  if (from.startsWith('/') || /[\\:\0]/.test(from)) return undefined;
  const folders = file.split('/').slice(0, -1);
  for (const part of from.split('/')) {
    if (part === '..') {
      if (folders.pop() === undefined) return undefined;
    } else if (part !== '' && part !== '.') folders.push(part);
  }
  return folders.length === 0 ? undefined : folders.join('/');
}
