/** Resolves when the work is done, at the latest after the given time. */
export async function waitAtMost(milliseconds: number, work: Promise<void>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<void>((resolve) => (timer = setTimeout(resolve, milliseconds)));
  await Promise.race([work, late]);
  clearTimeout(timer);
}
