/** A row of the table of findings: severity, lifetime, the message with its `{facts}`, and help. */
export type Severity = 'error' | 'warning' | 'information' | 'hint';

/**
 * `lasting`: about a cell or a visit. `passing`: about the end of the log; it goes when the log grows, and may come
 * back when a cell is corrected, so an `allow` for it is never reported as unused.
 */
type Lifetime = 'lasting' | 'passing';

export interface Wording {
  readonly severity: Severity;
  readonly lifetime: Lifetime;
  readonly message: string;
  readonly help: string;
}

export const error = <const M extends string>(message: M, help: string, lifetime: Lifetime = 'lasting') =>
  ({ severity: 'error', lifetime, message, help }) as const satisfies Wording;
export const warning = <const M extends string>(message: M, help: string, lifetime: Lifetime = 'lasting') =>
  ({ severity: 'warning', lifetime, message, help }) as const satisfies Wording;
export const information = <const M extends string>(message: M, help: string, lifetime: Lifetime = 'lasting') =>
  ({ severity: 'information', lifetime, message, help }) as const satisfies Wording;
export const hint = <const M extends string>(message: M, help: string, lifetime: Lifetime = 'lasting') =>
  ({ severity: 'hint', lifetime, message, help }) as const satisfies Wording;
