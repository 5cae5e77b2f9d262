/** The state of the panel that is stored across a reload of the window. */
export interface PanelState {
  readonly uri?: string;
  readonly station?: string;
  readonly round?: number;
  readonly behind?: boolean;
}

/** The stored state may come from another version. */
export function panelStateFrom(state: unknown): PanelState {
  const stored = typeof state === 'object' && state !== null ? (state as Record<string, unknown>) : {};
  const { uri, station, round, behind } = stored;
  return {
    ...(typeof uri === 'string' && { uri }),
    ...(typeof station === 'string' && { station }),
    ...(typeof round === 'number' && { round }),
    ...(typeof behind === 'boolean' && { behind }),
  };
}
