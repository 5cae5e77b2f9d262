/**
 * The user's own names are keys of plain objects here, and `constructor` is a name like any other: a look-up
 * that sees only what was put in.
 */
export function lookup<T>(record: Readonly<Record<string, T>>, name: string): T | undefined {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}
