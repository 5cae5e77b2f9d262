/** The facts of a finding, by the names in its wording: one that is missing or misspelt does not compile. */
import type { FindingCode, findings } from './findings.ts';

/** The names in `{}` of a message: what is no word is no fact. */
type Named<M extends string> = M extends `${string}{${infer Name}}${infer Rest}`
  ? (Name extends `${string} ${string}` ? never : Name) | Named<Rest>
  : never;

export type FactName<C extends FindingCode> = Named<(typeof findings)[C]['message']>;

/** The facts that a finding's wording names; it may carry more, for fixes. */
export type FactsOf<C extends FindingCode> = { readonly [Name in FactName<C>]: string } & Facts;

export type Facts = Readonly<Record<string, string>>;
