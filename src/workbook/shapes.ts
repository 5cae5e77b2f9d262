/**
 * The building blocks of the schemas. A schema defines what is accepted, its name in messages, and what is published
 * for other editors. The data for messages is in zod's `error` text, because zod returns that: for a value, the name of
 * what is expected; for a mapping, its known keys.
 */
import * as z from 'zod';
import type { QuantityProblem, Reading } from './quantities/index.ts';

/** What is published for other editors: a description, examples, and the types of YAML values. */
export interface Published {
  readonly description: string;
  readonly examples?: readonly unknown[];
  readonly type?: readonly string[];
  readonly pattern?: string;
}

/** Registers the published data beside the schema. (`schema.meta` would build every schema a second time.) */
export function documented<S extends z.ZodType>(schema: S, published: Published): S {
  z.globalRegistry.add(schema, { ...published });
  return schema;
}

/** A text that a reader converts to a value. `expected` completes “takes …”. */
export function scalar<T>(
  expected: string,
  read: (text: string) => Reading<T>,
  published: Published,
): z.ZodType<T, string> {
  const schema = z.string({ error: () => expected }).transform((text, context): T => {
    const reading = read(text);
    for (const problem of merged(reading.problems)) {
      const facts = problem.code === 'quantity.unreadable' ? { ...problem.facts, wanted: expected } : problem.facts;
      context.issues.push({ code: 'custom', input: text, params: { ...problem, facts } });
    }
    return reading.problems.length === 0 ? (reading.value as T) : z.NEVER;
  });
  return documented(schema, published);
}

/** Problems with every word of a text are merged into one. */
function merged(problems: readonly QuantityProblem[]): QuantityProblem[] {
  const unreadable = problems.filter(({ code }) => code === 'quantity.unreadable');
  const [first] = unreadable;
  if (first === undefined || unreadable.length === 1) return [...problems];
  const { code, from, facts } = first;
  return [...problems.filter((problem) => problem.code !== code), { code, from, to: unreadable.at(-1)!.to, facts }];
}

/** Free text. */
export function text(description: string, ...examples: readonly string[]): z.ZodString {
  return documented(z.string({ error: () => 'a text' }), { description, examples });
}

/** The same, but may be left blank: a missing value is no reason to reject the cell. */
export function textOrBlank(description: string, ...examples: readonly string[]) {
  return documented(
    text(description, ...examples)
      .nullable()
      .transform((written) => written ?? undefined),
    { description, examples },
  );
}

/** One of the format's words. */
export function word<const W extends string>(words: readonly W[], description: string) {
  return documented(z.enum(words, { error: () => `one of ${words.join(', ')}` }), {
    description,
    examples: [words[0]],
  });
}

/** Keys of the format: any other is reported, with the nearest of these. */
export function mapping<S extends z.core.$ZodLooseShape>(shape: S, expected: string, published?: Published) {
  const known = Object.keys(shape).join('\n');
  const error = (issue: z.core.$ZodRawIssue) => (issue.code === 'unrecognized_keys' ? known : expected);
  // An unknown key counts as much as any other problem; zod would prefer it among the alternatives of a union.
  const schema = z
    .strictObject(shape, { error })
    .check(({ issues }) => issues.forEach((issue) => Object.assign(issue, { continue: false })));
  return published === undefined ? schema : documented(schema, published);
}

/** Keys that are user-defined names. */
export function named<V extends z.ZodType>(value: V, expected: string, published: Published) {
  return documented(z.record(z.string().regex(NAME), value, { error: () => expected }), published);
}

/** Keys that are any text: finding codes with dots, names of places. */
export function free<V extends z.ZodType>(value: V, expected: string, published: Published) {
  return documented(z.record(z.string(), value, { error: () => expected }), published);
}

export function list<V extends z.ZodType>(item: V, expected: string, published: Published) {
  return documented(z.array(item, { error: () => expected }), published);
}

/** One value, or a list of them; converted to a list. */
export function oneOrMore<V extends z.ZodType>(item: V, expected: string, published: Published, least = 1) {
  const one = item.transform((value) => [value]);
  const error = () => expected;
  return documented(z.union([one, z.array(item, { error }).min(least, { error })], { error }), published);
}

export const NAME = /^[A-Za-z][A-Za-z0-9_]*$/;
