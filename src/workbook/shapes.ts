/**
 * The building stones of the schemas. A schema says three things at once: what is accepted, what a message calls it,
 * and what is published for other editors. What a message needs travels in zod's own `error` text, because that is
 * what zod hands back: of a value, the words for what is wanted; of a mapping, its known keys.
 */
import * as z from 'zod';
import type { QuantityProblem, Reading } from './quantities/index.ts';

/** What other editors are told: a description, examples, and what they may see in YAML's own types. */
export interface Published {
  readonly description: string;
  readonly examples?: readonly unknown[];
  readonly type?: readonly string[];
  readonly pattern?: string;
}

/** Kept beside the schema. (`schema.meta` would build every schema a second time, to the same end.) */
export function told<S extends z.ZodType>(schema: S, published: Published): S {
  z.globalRegistry.add(schema, { ...published });
  return schema;
}

/** A text that a reader turns into a value of the trade. `wanted` completes “takes …”. */
export function scalar<T>(
  wanted: string,
  read: (text: string) => Reading<T>,
  published: Published,
): z.ZodType<T, string> {
  const schema = z.string({ error: () => wanted }).transform((text, context): T => {
    const reading = read(text);
    for (const problem of merged(reading.problems)) {
      const facts = problem.code === 'quantity.unreadable' ? { ...problem.facts, wanted } : problem.facts;
      context.issues.push({ code: 'custom', input: text, params: { ...problem, facts } });
    }
    return reading.problems.length === 0 ? (reading.value as T) : z.NEVER;
  });
  return told(schema, published);
}

/** What is wrong with every word of a text is said once, of all of it. */
function merged(problems: readonly QuantityProblem[]): QuantityProblem[] {
  const unreadable = problems.filter(({ code }) => code === 'quantity.unreadable');
  const [first] = unreadable;
  if (first === undefined || unreadable.length === 1) return [...problems];
  const { code, from, facts } = first;
  return [...problems.filter((problem) => problem.code !== code), { code, from, to: unreadable.at(-1)!.to, facts }];
}

/** The user's own words. */
export function text(description: string, ...examples: readonly string[]): z.ZodString {
  return told(z.string({ error: () => 'a text' }), { description, examples });
}

/** The same where an empty place waits for it: nothing yet, and no reason to refuse the cell. */
export function textOrBlank(description: string, ...examples: readonly string[]) {
  return told(
    text(description, ...examples)
      .nullable()
      .transform((written) => written ?? undefined),
    { description, examples },
  );
}

/** One of the format's words. */
export function word<const W extends string>(words: readonly W[], description: string) {
  return told(z.enum(words, { error: () => `one of ${words.join(', ')}` }), { description, examples: [words[0]] });
}

/** Keys that are the format's: any other is reported, with the nearest of these. */
export function mapping<S extends z.core.$ZodLooseShape>(shape: S, wanted: string, published?: Published) {
  const known = Object.keys(shape).join('\n');
  const error = (issue: z.core.$ZodRawIssue) => (issue.code === 'unrecognized_keys' ? known : wanted);
  // An unknown key is as wrong as anything else; zod would take it for the lesser evil among the forms of a union.
  const schema = z
    .strictObject(shape, { error })
    .check(({ issues }) => issues.forEach((issue) => Object.assign(issue, { continue: false })));
  return published === undefined ? schema : told(schema, published);
}

/** Keys that are the user's own names. */
export function named<V extends z.ZodType>(value: V, wanted: string, published: Published) {
  return told(z.record(z.string().regex(NAME), value, { error: () => wanted }), published);
}

/** Keys that are any text: finding codes with their dots, places as people call them. */
export function free<V extends z.ZodType>(value: V, wanted: string, published: Published) {
  return told(z.record(z.string(), value, { error: () => wanted }), published);
}

export function list<V extends z.ZodType>(item: V, wanted: string, published: Published) {
  return told(z.array(item, { error: () => wanted }), published);
}

/** One value, or a list of them: a list either way afterwards. */
export function oneOrMore<V extends z.ZodType>(item: V, wanted: string, published: Published, least = 1) {
  const one = item.transform((value) => [value]);
  const error = () => wanted;
  return told(z.union([one, z.array(item, { error }).min(least, { error })], { error }), published);
}

export const NAME = /^[A-Za-z][A-Za-z0-9_]*$/;
