/** Computes a value on the first call, and returns the same value later. */
export function once<T>(work: () => T): () => T {
  let cached: { readonly result: T } | undefined;
  return () => (cached ??= { result: work() }).result;
}
