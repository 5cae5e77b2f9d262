/** What a user can switch, as the client tells it under `alignbook`; all of it is on where nothing is said. */
import { HINT_KINDS, type HintKind } from '../language/index.ts';

export interface Settings {
  readonly inlineValues: Readonly<Record<HintKind, boolean>>;
  /** Which cells formatting a file lays out: those that were touched since it was opened or saved, or all. */
  readonly format: 'touched' | 'all';
}

export function settingsFrom(told: unknown): Settings {
  const values = told !== null && typeof told === 'object' && 'inlineValues' in told ? (told.inlineValues as Partial<Record<string, unknown>> | null) : undefined;
  const format = told !== null && typeof told === 'object' && 'format' in told && told.format === 'all' ? 'all' : 'touched';
  const isOn = (kind: HintKind) => values?.[kind] !== false;
  return { inlineValues: Object.fromEntries(HINT_KINDS.map((kind) => [kind, isOn(kind)])) as Record<HintKind, boolean>, format };
}
