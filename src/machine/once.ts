/** Computed when it is first asked for. */
export function once<T>(work: () => T): () => T {
  let cached: { readonly result: T } | undefined;
  return () => (cached ??= { result: work() }).result;
}
