/** The user's settings, as the client sends them under `alignbook`. */
import { HINT_KINDS, type HintKind } from '../../language/index.ts';

export interface Settings {
  readonly inlineValues: Readonly<Record<HintKind, boolean>>;
  /** Which cells formatting a file changes: those edited since it was opened or saved, or all. */
  readonly format: 'touched' | 'all';
  /** The name of the user, for `by:`; empty: left blank. */
  readonly by: string;
}

/** Off by default: one inline hint for each cell is enough, and the hover shows the rest. */
const QUIET: ReadonlySet<HintKind> = new Set(['marks']);

export function settingsFrom(configuration: unknown): Settings {
  const values =
    configuration !== null && typeof configuration === 'object' && 'inlineValues' in configuration
      ? (configuration.inlineValues as Partial<Record<string, unknown>> | null)
      : undefined;
  const format =
    configuration !== null &&
    typeof configuration === 'object' &&
    'format' in configuration &&
    configuration.format === 'all'
      ? 'all'
      : 'touched';
  const isOn = (kind: HintKind) => (typeof values?.[kind] === 'boolean' ? values[kind] : !QUIET.has(kind));
  return {
    inlineValues: Object.fromEntries(HINT_KINDS.map((kind) => [kind, isOn(kind)])) as Record<HintKind, boolean>,
    format,
    by: isRecord(configuration) && typeof configuration['by'] === 'string' ? configuration['by'].trim() : '',
  };
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
