/** How grave a finding is, its message with `{facts}`, and help for the person who meets it: what a row of the table is made of. */
export type Severity = 'error' | 'warning' | 'information' | 'hint';

export interface Wording {
  readonly severity: Severity;
  readonly message: string;
  readonly help: string;
}

export const error = <const M extends string>(message: M, help: string) =>
  ({ severity: 'error', message, help }) as const satisfies Wording;
export const warning = <const M extends string>(message: M, help: string) =>
  ({ severity: 'warning', message, help }) as const satisfies Wording;
export const information = <const M extends string>(message: M, help: string) =>
  ({ severity: 'information', message, help }) as const satisfies Wording;
export const hint = <const M extends string>(message: M, help: string) =>
  ({ severity: 'hint', message, help }) as const satisfies Wording;

/** The names in `{}` of a message: what is no word is no fact. */
export type Named<M extends string> = M extends `${string}{${infer Name}}${infer Rest}`
  ? (Name extends `${string} ${string}` ? never : Name) | Named<Rest>
  : never;
