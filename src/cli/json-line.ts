/**
 * An answer as one line of JSON. A value that is not known is absent: `null` stands nowhere, nor does a number that is
 * not finite, which JSON could write only as `null`.
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
