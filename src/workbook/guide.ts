/**
 * What the format allows at a place in a cell, from the published schema. That is generated from the schemas that read,
 * so help and reading always agree.
 */
import type { Kind } from '../model/index.ts';
import { workbookSchema } from './published.ts';

/** What the format allows at a place. */
export interface Guidance {
  readonly description?: string;
  readonly examples: readonly unknown[];
  /** The words that are allowed. */
  readonly words: readonly string[];
  /** The format's keys below it. */
  readonly keys: readonly KeyGuidance[];
  /** Keys below it are user-defined names. */
  readonly named: boolean;
  readonly list: boolean;
}

/** What the format allows under a key. */
export interface KeyGuidance {
  readonly name: string;
  readonly required: boolean;
  readonly description?: string;
  readonly examples: readonly unknown[];
  /** Its value is a mapping or a list. */
  readonly block: boolean;
}

/** The format's guidance by place. */
export interface Guide {
  /** @param path keys and indexes in a cell of this kind; empty for the cell itself */
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

/** The guide of this version of the format; the schema is generated on first use. */
export function createGuide(): Guide {
  let kinds: ReadonlyMap<string, JsonSchema> | undefined;
  return {
    at(kind, path) {
      kinds ??= new Map((workbookSchema() as JsonSchema).anyOf!.map((schema) => [schema.title!, schema]));
      const schemas = path.reduce<readonly JsonSchema[]>(
        (at, key) => at.flatMap((schema) => below(schema, key)),
        forms(kinds.get(kind)!),
      );
      return schemas.length === 0 ? undefined : guidance(schemas);
    },
  };
}

/** A schema and its alternatives. */
function forms(schema: JsonSchema): JsonSchema[] {
  return [schema, ...(schema.anyOf ?? []).flatMap(forms)];
}

function below({ properties, additionalProperties, items }: JsonSchema, key: string): JsonSchema[] {
  const own = properties && Object.hasOwn(properties, key) ? properties[key] : undefined;
  if (own) return forms(own);
  if (items && /^\d+$/.test(key)) return forms(items);
  return typeof additionalProperties === 'object' ? forms(additionalProperties) : [];
}

function guidance(schemas: readonly JsonSchema[]): Guidance {
  const description = schemas.find((schema) => schema.description !== undefined)?.description;
  return {
    ...(description !== undefined && { description }),
    examples: schemas.find((schema) => schema.examples !== undefined)?.examples ?? [],
    words: schemas.flatMap((schema) => schema.enum ?? []).filter((word) => typeof word === 'string'),
    keys: schemas.flatMap(keysOf),
    named: schemas.some(({ additionalProperties }) => typeof additionalProperties === 'object'),
    list: schemas.some(({ items }) => items !== undefined),
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
