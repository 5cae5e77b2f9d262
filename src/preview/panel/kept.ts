/** What the panel keeps across a reload of the window. */
export interface Kept {
  readonly uri?: string;
  readonly station?: string;
  readonly round?: number;
  readonly behind?: boolean;
}

/** Whatever was kept by whichever version. */
export function keptIn(state: unknown): Kept {
  const found = typeof state === 'object' && state !== null ? (state as Record<string, unknown>) : {};
  const { uri, station, round, behind } = found;
  return {
    ...(typeof uri === 'string' && { uri }),
    ...(typeof station === 'string' && { station }),
    ...(typeof round === 'number' && { round }),
    ...(typeof behind === 'boolean' && { behind }),
  };
}
