/**
 * The JSON Schema of the format for other editors, generated from the schemas that read it: a choice of strict objects,
 * one for each kind, so that a YAML language server gives good completions and messages. An empty cell is allowed, `x-`
 * keys are user-defined, and a text here may be a number there, because YAML readers convert it before validation.
 */
import * as z from 'zod';
import { createFields } from './fields.ts';
import { KINDS } from '../model/index.ts';
import { CELL_KINDS, common } from './kinds/index.ts';
import { createCalculator } from './quantities/index.ts';
import { NAME } from './shapes.ts';

const TITLE = 'A cell of an Alignbook workbook, format 1';

/** A JSON Schema (draft 7) of one cell, which is one document of the YAML stream. */
export function workbookSchema(): object {
  const fields = createFields('mm', createCalculator(nothingIsRead));
  const shared = common(fields);
  const kinds = KINDS.map((kind) => {
    const { $schema: _, ...schema } = z.toJSONSchema(CELL_KINDS[kind].schema(shared, fields), {
      io: 'input',
      target: 'draft-7',
      override,
    });
    return { title: kind, ...schema };
  });
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: TITLE,
    anyOf: [...kinds, { title: 'empty', type: 'null' }],
  };
}

function nothingIsRead(): never {
  throw new Error('a schema is described here, not read with');
}

interface Overridden {
  readonly zodSchema: z.core.$ZodTypes;
  readonly jsonSchema: z.core.JSONSchema.BaseSchema;
}

function override({ zodSchema, jsonSchema }: Overridden): void {
  const examples = z.globalRegistry.get(zodSchema)?.['examples'];
  if (examples !== undefined) jsonSchema.examples = examples as unknown[];
  if (jsonSchema.type !== 'object') return;
  jsonSchema.patternProperties = { '^x-': {} };
  if (jsonSchema.propertyNames !== undefined) {
    const pattern = (jsonSchema.propertyNames as { pattern?: string }).pattern;
    jsonSchema.propertyNames = pattern === NAME.source ? { pattern: `${pattern}|^x-` } : {};
  }
}
