/** What a user can switch, as the client tells it under `alignbook`; all of it is on where nothing is said. */
export interface Settings {
  readonly inlineValues: Readonly<Record<InlineKind, boolean>>;
}

export const INLINE_KINDS = ['marks', 'verdicts', 'turns', 'steps', 'results'] as const;
export type InlineKind = (typeof INLINE_KINDS)[number];

export const DEFAULT_SETTINGS: Settings = settingsFrom(undefined);

export function settingsFrom(told: unknown): Settings {
  const values = told !== null && typeof told === 'object' && 'inlineValues' in told ? (told.inlineValues as Partial<Record<string, unknown>> | null) : undefined;
  const isOn = (kind: InlineKind) => values?.[kind] !== false;
  return { inlineValues: Object.fromEntries(INLINE_KINDS.map((kind) => [kind, isOn(kind)])) as Record<InlineKind, boolean> };
}
