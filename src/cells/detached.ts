/**
 * A copy of the text with memory of its own. An engine may store a substring as a view of the whole text, so a cached
 * cell would keep every version of the file in memory.
 */
export function detached(text: string): string {
  return ` ${text}`.slice(1);
}
