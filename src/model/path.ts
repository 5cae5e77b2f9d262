/**
 * The place of a value in a cell: the keys and indexes that lead to it, as one string (`shots/0/with/M2`), because it is
 * a key of maps and goes over the wire. Within a key `~` is written `~0` and `/` is written `~1`, as in a JSON Pointer
 * (RFC 6901, section 3); the `/` with which a pointer begins is left out. A key is never empty.
 */
declare const brand: unique symbol;
export type Path = string & { readonly [brand]: 'path' };

/** The whole cell. */
export const ROOT = '' as Path;

const ESCAPED = /[~/]/;
const PATH = /^(?:(?:[^~/]|~[01])+(?:\/(?:[^~/]|~[01])+)*)?$/;

/** Whether a value from another process is a path. */
export function isPath(value: unknown): value is Path {
  return typeof value === 'string' && PATH.test(value);
}

/** The path to the value that these keys and indexes lead to, from the whole cell on. */
export function pathTo(...keys: readonly (string | number)[]): Path {
  return keys.reduce<Path>((path, key) => child(path, key), ROOT);
}

/** The path to a value in a mapping or list. It is called for every value of a cell: most keys are only joined. */
export function child(path: Path, key: string | number): Path {
  const token = typeof key === 'string' && ESCAPED.test(key) ? escaped(key) : key;
  return (path === ROOT ? String(token) : `${path}/${token}`) as Path;
}

/** The keys that lead to the value, as they are written; an index as its digits. */
export function keysOf(path: Path): string[] {
  if (path === ROOT) return [];
  const tokens = path.split('/');
  return path.includes('~') ? tokens.map(unescaped) : tokens;
}

/** The path without its last key; the parent of the whole cell is itself. */
export function parentOf(path: Path): Path {
  return path.slice(0, Math.max(0, path.lastIndexOf('/'))) as Path;
}

/** Whether a path leads through another, which is not below itself. */
export function isBelow(path: Path, ancestor: Path): boolean {
  return ancestor === ROOT ? path !== ROOT : path.startsWith(ancestor) && path[ancestor.length] === '/';
}

/** For messages: the keys as they are written in the cell. */
export function pathInWords(path: Path): string {
  return keysOf(path).join('/');
}

function escaped(key: string): string {
  return key.replaceAll('~', '~0').replaceAll('/', '~1');
}

function unescaped(token: string): string {
  return token.replaceAll('~1', '/').replaceAll('~0', '~');
}
