/** Computed when it is first asked for. */
export function once<T>(work: () => T): () => T {
  let done: { readonly result: T } | undefined;
  return () => (done ??= { result: work() }).result;
}
