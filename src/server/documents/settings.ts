/** What a user can switch, as the client tells it under `alignbook`. */
import { HINT_KINDS, type HintKind } from '../../language/index.ts';

export interface Settings {
  readonly inlineValues: Readonly<Record<HintKind, boolean>>;
  /** Which cells formatting a file lays out: those that were touched since it was opened or saved, or all. */
  readonly format: 'touched' | 'all';
}

/** Off where nothing is said: one line of meaning a cell is enough, and the rest stands under the mouse. */
const QUIET: ReadonlySet<HintKind> = new Set(['marks']);

export function settingsFrom(told: unknown): Settings {
  const values =
    told !== null && typeof told === 'object' && 'inlineValues' in told
      ? (told.inlineValues as Partial<Record<string, unknown>> | null)
      : undefined;
  const format =
    told !== null && typeof told === 'object' && 'format' in told && told.format === 'all' ? 'all' : 'touched';
  const isOn = (kind: HintKind) => (typeof values?.[kind] === 'boolean' ? values[kind] : !QUIET.has(kind));
  return {
    inlineValues: Object.fromEntries(HINT_KINDS.map((kind) => [kind, isOn(kind)])) as Record<HintKind, boolean>,
    format,
  };
}
