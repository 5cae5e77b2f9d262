/** As much of JSON Schema as the published schema uses: a referee for it, and nothing more. */
export interface JsonSchema {
  readonly type?: string | readonly string[];
  readonly anyOf?: readonly JsonSchema[];
  readonly enum?: readonly unknown[];
  readonly pattern?: string;
  readonly items?: JsonSchema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly propertyNames?: JsonSchema;
  readonly patternProperties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: JsonSchema | boolean;
}

const KNOWN = new Set([
  'type',
  'anyOf',
  'enum',
  'pattern',
  'items',
  'minItems',
  'maxItems',
  'properties',
  'required',
  'propertyNames',
  'patternProperties',
  'additionalProperties',
  '$schema',
  'title',
  'description',
  'examples',
]);

export function isValid(schema: JsonSchema, value: unknown): boolean {
  const strange = Object.keys(schema).filter((key) => !KNOWN.has(key));
  if (strange.length > 0) throw new Error(`the referee does not know ${strange.join(', ')}`);
  return (
    (schema.type === undefined || [schema.type].flat().includes(typeOf(value))) &&
    (schema.anyOf === undefined || schema.anyOf.some((option) => isValid(option, value))) &&
    (schema.enum === undefined || schema.enum.includes(value)) &&
    (schema.pattern === undefined || typeof value !== 'string' || new RegExp(schema.pattern).test(value)) &&
    (!Array.isArray(value) || isValidList(schema, value)) &&
    (typeOf(value) !== 'object' || isValidObject(schema, value as Record<string, unknown>))
  );
}

function isValidList({ items, minItems = 0, maxItems = Infinity }: JsonSchema, list: readonly unknown[]): boolean {
  const fits = list.length >= minItems && list.length <= maxItems;
  return fits && (items === undefined || list.every((item) => isValid(items, item)));
}

function isValidObject(schema: JsonSchema, object: Readonly<Record<string, unknown>>): boolean {
  const { properties = {}, required = [], propertyNames, patternProperties = {}, additionalProperties = true } = schema;
  return (
    required.every((key) => Object.hasOwn(object, key)) &&
    Object.entries(object).every(([key, value]) => {
      if (propertyNames !== undefined && !isValid(propertyNames, key)) return false;
      if (Object.hasOwn(properties, key)) return isValid(properties[key]!, value);
      const patterned = Object.entries(patternProperties).filter(([pattern]) => new RegExp(pattern).test(key));
      if (patterned.length > 0) return patterned.every(([, inner]) => isValid(inner, value));
      return typeof additionalProperties === 'boolean' ? additionalProperties : isValid(additionalProperties, value);
    })
  );
}

function typeOf(value: unknown): string {
  return value === null ? 'null' : Array.isArray(value) ? 'array' : typeof value;
}
