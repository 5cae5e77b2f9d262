/**
 * An answer as one line of JSON. An unknown value is absent: `null` is never written, nor a number that is not finite,
 * which JSON could only write as `null`.
 */
export function jsonLine(answer: object): string {
  return JSON.stringify(answer, (_, value: unknown) => {
    if (Array.isArray(value)) return value.filter(isKnown);
    return isKnown(value) ? value : undefined;
  });
}

function isKnown(value: unknown): boolean {
  return value !== undefined && value !== null && (typeof value !== 'number' || Number.isFinite(value));
}
