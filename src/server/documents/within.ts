/** Resolves when the work is done, or after so many milliseconds. */
export async function within(milliseconds: number, work: Promise<void>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<void>((resolve) => (timer = setTimeout(resolve, milliseconds)));
  await Promise.race([work, late]);
  clearTimeout(timer);
}
