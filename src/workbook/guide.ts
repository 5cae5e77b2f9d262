/**
 * What the format says about a place in a cell: out of the published schema, which is made of the very schemas that
 * read, so that help can name nothing that is not read.
 */
import type { Kind } from '../model/index.ts';
import { workbookSchema } from './published.ts';

export interface Guidance {
  readonly description?: string;
  readonly examples: readonly unknown[];
  /** The words of which it is one. */
  readonly words: readonly string[];
  /** The format's keys below it. */
  readonly keys: readonly KeyGuidance[];
  /** Keys below it are the user's names. */
  readonly named: boolean;
  readonly list: boolean;
}

export interface KeyGuidance {
  readonly name: string;
  readonly required: boolean;
  readonly description?: string;
  readonly examples: readonly unknown[];
  /** What stands below it is a mapping, or a list. */
  readonly block: boolean;
}

export interface Guide {
  /** Of a path of keys and indexes in a cell of this kind; of the cell itself for no path. */
  at(kind: Kind, path: readonly string[]): Guidance | undefined;
}

interface JsonSchema {
  readonly title?: string;
  readonly description?: string;
  readonly examples?: readonly unknown[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly type?: string | readonly string[];
  readonly anyOf?: readonly JsonSchema[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: boolean | JsonSchema;
  readonly items?: JsonSchema;
  readonly required?: readonly string[];
}

export function createGuide(): Guide {
  let kinds: ReadonlyMap<string, JsonSchema> | undefined;
  return {
    at(kind, path) {
      kinds ??= new Map((workbookSchema() as JsonSchema).anyOf!.map((schema) => [schema.title!, schema]));
      const found = path.reduce<readonly JsonSchema[]>(
        (at, key) => at.flatMap((schema) => below(schema, key)),
        forms(kinds.get(kind)!),
      );
      return found.length === 0 ? undefined : guidance(found);
    },
  };
}

/** A schema and each of the forms that it allows. */
function forms(schema: JsonSchema): JsonSchema[] {
  return [schema, ...(schema.anyOf ?? []).flatMap(forms)];
}

function below({ properties, additionalProperties, items }: JsonSchema, key: string): JsonSchema[] {
  const own = properties && Object.hasOwn(properties, key) ? properties[key] : undefined;
  if (own) return forms(own);
  if (items && /^\d+$/.test(key)) return forms(items);
  return typeof additionalProperties === 'object' ? forms(additionalProperties) : [];
}

function guidance(found: readonly JsonSchema[]): Guidance {
  const description = found.find((schema) => schema.description !== undefined)?.description;
  return {
    ...(description !== undefined && { description }),
    examples: found.find((schema) => schema.examples !== undefined)?.examples ?? [],
    words: found.flatMap((schema) => schema.enum ?? []).filter((word) => typeof word === 'string'),
    keys: found.flatMap(keysOf),
    named: found.some(({ additionalProperties }) => typeof additionalProperties === 'object'),
    list: found.some(({ items }) => items !== undefined),
  };
}

function keysOf({ properties = {}, required = [] }: JsonSchema): KeyGuidance[] {
  return Object.entries(properties).map(([name, schema]) => {
    const { description, examples } = guidance(forms(schema));
    const block = forms(schema).some(({ type }) => type === 'object' || type === 'array');
    return {
      name,
      required: required.includes(name),
      examples,
      block,
      ...(description !== undefined && { description }),
    };
  });
}
