/**
 * A bounded cache with two generations: when the young one is full it becomes the old one, and entries of the old one
 * that were not used since are dropped. An edit changes one cell of thousands; the others are found here.
 */
export interface Cache<V> {
  get(key: string): V | undefined;
  set(key: string, value: V): void;
}

/** At most `entries` values or `letters` characters of keys in each generation. */
export function createCache<V>(entries: number, letters: number): Cache<V> {
  let young = new Map<string, V>();
  let old = new Map<string, V>();
  let used = 0;

  function set(key: string, value: V): void {
    if (young.size >= entries || used >= letters) {
      old = young;
      young = new Map();
      used = 0;
    }
    young.set(key, value);
    used += key.length;
  }

  return {
    set,
    get(key) {
      const recent = young.get(key);
      if (recent !== undefined) return recent;
      const older = old.get(key);
      if (older !== undefined) set(key, older);
      return older;
    },
  };
}
