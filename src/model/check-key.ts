/** One check is the same as another whatever its capitals and spaces. */
export function checkKey(item: string): string {
  return item.trim().replace(/\s+/g, ' ').toLowerCase();
}
