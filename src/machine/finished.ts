/** The result of work in steps, all of them taken now. Work that must not hold up others takes a few steps at a time. */
export function finished<T>(steps: Generator<undefined, T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}
