/**
 * A bounded memory, in two generations: when the young one is full it becomes the old one, and what was not asked
 * for since then is forgotten. An edit changes one cell of thousands; the others are found here.
 */
export interface Cache<V> {
  get(key: string): V | undefined;
  set(key: string, value: V): void;
}

/** At most `entries` values or `letters` characters of keys in either generation. */
export function createCache<V>(entries: number, letters: number): Cache<V> {
  let young = new Map<string, V>();
  let old = new Map<string, V>();
  let weight = 0;

  function set(key: string, value: V): void {
    if (young.size >= entries || weight >= letters) {
      old = young;
      young = new Map();
      weight = 0;
    }
    young.set(key, value);
    weight += key.length;
  }

  return {
    set,
    get(key) {
      const found = young.get(key);
      if (found !== undefined) return found;
      const older = old.get(key);
      if (older !== undefined) set(key, older);
      return older;
    },
  };
}
