/** The state of the panel that is stored across a reload of the window. */
import type { Disclosure } from './disclosures.tsx';

export interface PanelState {
  readonly uri?: string;
  readonly station?: string;
  readonly round?: number;
  readonly behind?: boolean;
  /** Earlier rounds of the visit are drawn, too. */
  readonly whole?: boolean;
  readonly open?: readonly Disclosure[];
  /** Marks that were logged with the keys. */
  readonly keyed?: number;
}

const DISCLOSURES: readonly unknown[] = ['path', 'rounds', 'visits', 'numbers'] satisfies Disclosure[];

/** The stored state may come from another version. */
export function panelStateFrom(state: unknown): PanelState {
  const stored = typeof state === 'object' && state !== null ? (state as Record<string, unknown>) : {};
  const { uri, station, round, behind, whole, open, keyed } = stored;
  return {
    ...(typeof uri === 'string' && { uri }),
    ...(typeof station === 'string' && { station }),
    ...(typeof round === 'number' && { round }),
    ...(typeof behind === 'boolean' && { behind }),
    ...(typeof whole === 'boolean' && { whole }),
    ...(Array.isArray(open) && { open: open.filter((one): one is Disclosure => DISCLOSURES.includes(one)) }),
    ...(typeof keyed === 'number' && { keyed }),
  };
}
