/**
 * User-defined names are keys of plain objects, and `constructor` is a name like any other: this lookup sees only own
 * properties.
 */
export function lookup<T>(record: Readonly<Record<string, T>>, name: string): T | undefined {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}
