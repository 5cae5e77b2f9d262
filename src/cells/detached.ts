/**
 * The same text with memory of its own. An engine may keep a stretch of a text as a view of the whole: what is remembered
 * of one cell would then hold the file as it was at that keystroke, and the next, and the next.
 */
export function detached(text: string): string {
  return ` ${text}`.slice(1);
}
